import { textOfValue } from './textOfPlan.ts';

/** One field that two versions of a thing do not share. Null where one of them does not have it. */
export interface FieldDifference {
  path: string;
  here: string | null;
  file: string | null;
}

/** The fields in which two records differ, one line for each that can be told apart by a person. */
export function differencesOf<T extends object>(
  here: T,
  file: T,
  fields: readonly (keyof T & string)[],
): FieldDifference[] {
  return fields.flatMap((field) => inside(field, here[field], file[field]));
}

function inside(path: string, here: unknown, file: unknown): FieldDifference[] {
  if (isGroup(here) && isGroup(file)) {
    const names = [...new Set([...Object.keys(here), ...Object.keys(file)])];
    return names.flatMap((name) => inside(`${path}.${name}`, here[name], file[name]));
  }
  const [mine, theirs] = [shown(here), shown(file)];
  return mine === theirs ? [] : [{ path, here: mine, file: theirs }];
}

function isGroup(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function shown(value: unknown): string | null {
  if (value === undefined) return null;
  return typeof value === 'string' ? value : textOfValue(value);
}
