import { textOfValue } from '../records/textOfPlan.ts';
import { showNumber } from '../units/index.ts';

/** One field that two states of a thing do not share, as a person reads it; null where a state does not have it. */
export interface FieldChange {
  /** `access.depth`. */
  path: string;
  was: string | null;
  is: string | null;
}

/**
 * The fields in which two states of a thing differ, each told by itself; of groups every field, of lists the whole list.
 *
 * @param was - as it was
 * @param is - as it is
 * @returns one entry for each field that is not the same, in order of the first state's fields, then of the second's
 */
export function fieldChanges(was: object, is: object): FieldChange[] {
  return inGroup('', groupOf(was) ?? {}, groupOf(is) ?? {});
}

function inGroup(path: string, was: Record<string, unknown>, is: Record<string, unknown>): FieldChange[] {
  const names = new Set([...Object.keys(was), ...Object.keys(is)]);
  return [...names].flatMap((name) => inside(path === '' ? name : `${path}.${name}`, was[name], is[name]));
}

function inside(path: string, was: unknown, is: unknown): FieldChange[] {
  const [before, after] = [groupOf(was), groupOf(is)];
  // A group on one side alone is told field by field too.
  if (before !== null || after !== null) {
    if ((before !== null || was == null) && (after !== null || is == null))
      return inGroup(path, before ?? {}, after ?? {});
  }
  const [one, other] = [exactOf(was), exactOf(is)];
  if (one === other) return [];
  const [short, long] = [wordsOf(was), wordsOf(is)];
  // Where two values read alike they are told as they are written.
  return [short === long ? { path, was: one, is: other } : { path, was: short, is: long }];
}

function groupOf(value: unknown): Record<string, unknown> | null {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
    ? (value as Record<string, unknown>)
    : null;
}

function exactOf(value: unknown): string | null {
  return value === undefined || value === null ? null : textOfValue(value);
}

/** `[{ id: 'C-1', quantity: 2 }]` as "id C-1, quantity 2". */
function wordsOf(value: unknown): string | null {
  if (value === undefined || value === null) return null;
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (Array.isArray(value)) {
    if (value.length === 0) return 'none';
    const isPlain = value.every((one) => typeof one !== 'object');
    return value.map((one) => wordsOf(one) ?? 'none').join(isPlain ? ', ' : '; ');
  }
  if (typeof value === 'number') return showNumber(value, 6);
  const group = groupOf(value);
  if (group === null) return String(value);
  return Object.entries(group)
    .flatMap(([name, inner]) => (inner === undefined ? [] : [`${name} ${wordsOf(inner) ?? 'none'}`]))
    .join(', ');
}
