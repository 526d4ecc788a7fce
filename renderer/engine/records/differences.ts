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
  // A group on one side alone is told field by field too: nobody should have to read braces.
  const [mineIn, theirsIn] = [groupOf(here), groupOf(file)];
  if (mineIn !== null && theirsIn !== null) {
    const names = [...new Set([...Object.keys(mineIn), ...Object.keys(theirsIn)])];
    return names.flatMap((name) => inside(`${path}.${name}`, mineIn[name], theirsIn[name]));
  }
  const [mine, theirs] = [shown(here), shown(file)];
  return mine === theirs ? [] : [{ path, here: mine, file: theirs }];
}

function groupOf(value: unknown): Record<string, unknown> | null {
  if (value === undefined) return {};
  return typeof value === 'object' && value !== null && !Array.isArray(value)
    ? (value as Record<string, unknown>)
    : null;
}

function shown(value: unknown): string | null {
  if (value === undefined) return null;
  return typeof value === 'string' ? value : textOfValue(value);
}
