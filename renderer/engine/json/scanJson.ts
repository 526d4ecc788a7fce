import type { RefusalCode } from '../../../shared-types/errors.ts';
import { RefusedError } from '../errors.ts';
import { fieldWithin } from './fieldText.ts';
import { rowAt } from './rowAt.ts';

/** Deeper nesting than any file of ours has; what is deeper breaks code that walks the value. */
const depthMax = 32;

/** Keys that reach an object's prototype when a value is copied carelessly. */
const forbiddenKeys = new Set(['__proto__', 'constructor', 'prototype']);

interface Frame {
  /** The keys seen, of an object; null in an array. */
  keys: Set<string> | null;
  /** Where the walk is: a key or an index. */
  at: string | number;
  /** The path of the object or array itself. */
  field: string;
}

const quote = 0x22;
const backslash = 0x5c;
const literal = /true|false|null|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const blank = /[ \t\n\r]*/y;
const escape = /\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/y;

/**
 * Walks a JSON text once without recursion and refuses what JSON.parse lets through: duplicate keys, keys of the prototype,
 * numbers too large or too small for a double, nesting past depthMax. Faults of syntax are refused with their position, which JSON.parse does not give.
 *
 * @param onValue - called with the path of each value, as catalog.sockets[2].length, and where it (or its key) begins
 * @throws RefusedError not-json, too-deep, duplicate-key, forbidden-key, not-finite; each with `position` and `row`
 */
export function scanJson(text: string, onValue?: (field: string, offset: number) => void): void {
  const frames: Frame[] = [];
  const fieldHere = (): string => {
    const frame = frames.at(-1);
    return frame === undefined || onValue === undefined ? '' : fieldWithin(frame.field, frame.at);
  };
  const refuse = (code: RefusalCode, position: number, message: string): RefusedError =>
    new RefusedError({ code, message, position, row: rowAt(text, position) });

  const skip = (from: number): number => {
    blank.lastIndex = from;
    // It matches nothing too, so that it never fails.
    blank.test(text);
    return blank.lastIndex;
  };
  const unexpected = (position: number, wanted: string): RefusedError =>
    text.trim() === ''
      ? refuse('not-json', text.length, 'The text is empty.')
      : position >= text.length
        ? refuse('not-json', position, `The text breaks off: ${wanted} is missing at its end.`)
        : refuse(
            'not-json',
            position,
            `Not JSON: ${wanted} is expected where "${text.slice(position, position + 12)}" stands.`,
          );

  const endOfString = (start: number): number => {
    for (let index = start + 1; ; index += 1) {
      const code = text.charCodeAt(index);
      if (Number.isNaN(code)) throw unexpected(text.length, 'the closing quote of a text');
      if (code === quote) return index + 1;
      if (code < 0x20)
        throw refuse('not-json', index, 'Not JSON: a text holds a bare control character; write it as \\n or \\t.');
      if (code !== backslash) continue;
      escape.lastIndex = index;
      const found = escape.exec(text);
      if (found === null) throw unexpected(index + 1 < text.length ? index : text.length, 'a known escape');
      index += found[0].length - 1;
    }
  };

  const endOfLiteral = (start: number): number => {
    literal.lastIndex = start;
    const found = literal.exec(text)?.[0];
    if (found === undefined) throw unexpected(start, 'a value');
    if (!/^[tfn]/.test(found) && !Number.isFinite(Number(found))) {
      throw refuse('not-finite', start, `The number ${found.slice(0, 40)} is too large to hold.`);
    }
    if (/^-?[0-9.]*[1-9]/.test(found) && Number(found) === 0) {
      throw refuse('not-finite', start, `The number ${found.slice(0, 40)} is too small to hold: it would become 0.`);
    }
    return start + found.length;
  };

  /** Reads a key and its colon; the index of the value is returned. */
  const readKey = (start: number, frame: Frame): number => {
    if (text.charCodeAt(start) !== quote) throw unexpected(start, 'a field name in double quotes');
    const end = endOfString(start);
    const key = JSON.parse(text.slice(start, end)) as string;
    if (forbiddenKeys.has(key)) throw refuse('forbidden-key', start, `The field name "${key}" is not taken.`);
    if (frame.keys?.has(key)) throw refuse('duplicate-key', start, `The field "${key}" stands twice in one object.`);
    frame.keys?.add(key);
    frame.at = key;
    const colon = skip(end);
    if (text[colon] !== ':') throw unexpected(colon, 'a colon');
    return skip(colon + 1);
  };

  let index = skip(0);
  let offset = index;
  for (;;) {
    const field = fieldHere();
    onValue?.(field, offset);
    const opening = text[index];
    let closed: boolean;
    if (opening === '{' || opening === '[') {
      if (frames.length === depthMax) throw refuse('too-deep', index, `Nested deeper than ${depthMax} levels.`);
      const frame: Frame = opening === '{' ? { keys: new Set(), at: '', field } : { keys: null, at: 0, field };
      index = skip(index + 1);
      closed = text[index] === (opening === '{' ? '}' : ']');
      if (!closed) {
        frames.push(frame);
        offset = index;
        if (frame.keys !== null) index = readKey(index, frame);
        continue;
      }
      index += 1;
    } else {
      index = text.charCodeAt(index) === quote ? endOfString(index) : endOfLiteral(index);
    }
    // After a value: close what ends here, then go to the next member, or be done.
    for (;;) {
      index = skip(index);
      const frame = frames.at(-1);
      if (frame === undefined) {
        if (index < text.length) throw unexpected(index, 'the end of the text');
        return;
      }
      const inObject = frame.keys !== null;
      if (text[index] === (inObject ? '}' : ']')) {
        frames.pop();
        index += 1;
        continue;
      }
      if (text[index] !== ',') throw unexpected(index, inObject ? 'a comma or "}"' : 'a comma or "]"');
      index = skip(index + 1);
      offset = index;
      if (inObject) index = readKey(index, frame);
      else frame.at = Number(frame.at) + 1;
      break;
    }
  }
}
