import type { FieldDifference } from './differences.ts';
import { picked } from './planFields.ts';

/** A thing that here and file both have, with what they say differently. */
export interface Differing {
  table: 'items' | 'outings' | 'steps' | 'tasks';
  code: string;
  name: string | null;
  fields: FieldDifference[];
}

/** Two lists side by side, by code. */
export interface Comparison {
  add: string[];
  same: string[];
  differ: Differing[];
  onlyHere: string[];
}

export interface Merged<R> {
  comparison: Comparison;
  /** New and changed records alone. */
  puts: R[];
}

/**
 * Two lists compared by code.
 *
 * @param x.differences - fields in which two entries of one code differ; none where they are the same
 * @param x.taken - the kept record with what the file says in place of its own
 */
export function mergedByCode<R extends { code: string; name?: string | undefined }>(x: {
  table: Differing['table'];
  here: readonly R[];
  file: readonly R[];
  differing: 'keep' | 'take';
  differences: (here: R, file: R) => FieldDifference[];
  taken: (here: R, file: R) => R;
}): Merged<R> {
  const kept = new Map(x.here.map((record) => [record.code, record]));
  const given = new Set(x.file.map(({ code }) => code));
  const comparison: Comparison = {
    add: [],
    same: [],
    differ: [],
    onlyHere: x.here.filter(({ code }) => !given.has(code)).map(({ code }) => code),
  };
  const puts: R[] = [];
  for (const file of x.file) {
    const here = kept.get(file.code);
    if (here === undefined) {
      comparison.add.push(file.code);
      puts.push(file);
      continue;
    }
    const fields = x.differences(here, file);
    if (fields.length === 0) {
      comparison.same.push(file.code);
      continue;
    }
    comparison.differ.push({ table: x.table, code: file.code, name: here.name ?? file.name ?? null, fields });
    if (x.differing === 'take') puts.push(x.taken(here, file));
  }
  return { comparison, puts };
}

/** The record with the file's word for these fields, and its own for all others. */
export function withFileFields<R extends object>(here: R, file: R, fields: readonly (keyof R)[]): R {
  const others = Object.entries(here).filter(([field]) => !(fields as readonly PropertyKey[]).includes(field));
  return { ...(Object.fromEntries(others) as R), ...picked(file, fields) };
}
