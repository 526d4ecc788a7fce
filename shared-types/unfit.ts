/** What no line of the journal may hold, whatever its shape: it would not come back as it was, or not at all. */
import type { Refusal } from './errors.ts';

/** 32 levels of a record, as every text that is read may have, and the entry's own around them. */
const deepest = 40;
const forbiddenNames = new Set(['__proto__', 'constructor', 'prototype']);

export function unfit(value: unknown): Refusal | null {
  const found = faultIn(value, 1);
  if (found === null) return null;
  const field = found.path.join('.');
  return { code: found.code, message: `${field}: ${found.says}`, field };
}

interface Found {
  code: Refusal['code'];
  says: string;
  path: string[];
}

function faultIn(value: unknown, level: number): Found | null {
  if (value === null || typeof value === 'string' || typeof value === 'boolean') return null;
  if (typeof value === 'number') {
    return Number.isFinite(value) ? null : { code: 'not-finite', says: 'not a finite number', path: [] };
  }
  if (typeof value !== 'object') return { code: 'wrong-shape', says: `not data but a ${typeof value}`, path: [] };
  if (level > deepest) return { code: 'too-deep', says: `nested deeper than ${deepest} levels`, path: [] };
  const isList = Array.isArray(value);
  const kind: unknown = Object.getPrototypeOf(value);
  if (!isList && kind !== Object.prototype && kind !== null) {
    return { code: 'wrong-shape', says: 'not plain data', path: [] };
  }
  const held = value as Record<string, unknown>;
  for (const name of isList ? value.keys() : Object.keys(held)) {
    if (forbiddenNames.has(String(name))) {
      return { code: 'forbidden-key', says: 'a field of this name is not taken', path: [String(name)] };
    }
    // A field that is undefined is absent; in a list it would become something else.
    const inside = held[name];
    const found = inside === undefined && !isList ? null : faultIn(inside, level + 1);
    if (found !== null) return { ...found, path: [String(name), ...found.path] };
  }
  return null;
}
