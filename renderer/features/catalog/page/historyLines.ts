import type { Item } from '../../../../shared-types/records/item.ts';
import { differencesOf } from '../../../engine/records/differences.ts';
import { dayAndClockText } from '../../../store/clock.ts';
import type { RecordChange } from '../../../store/store.ts';
import { fieldsOf } from '../itemFields.ts';

export interface HistoryLine {
  seq: number;
  /** "2026-11-26 10:42" */
  at: string;
  /** As they called themselves then; empty where nobody said. */
  by: string;
  /** The act that it came with. */
  title: string;
  /** Field by field; empty where the item came or went. */
  fields: { label: string; before: string; after: string }[];
  kind: 'came' | 'went' | 'changed';
}

const unlabelled: Readonly<Record<string, string>> = {
  kind: 'Kind',
  retired: 'Retired',
  position: 'Order on the shelf',
  shelf: 'Shelf',
};

const titleOf = (label: string): string => label.replace(/ \([^)]*\)$/, '');

function wordsOf(value: string | null, choices: ReadonlyMap<string, string>): string {
  if (value === null) return 'not said';
  return choices.get(value) ?? (value === 'true' ? 'yes' : value === 'false' ? 'no' : value);
}

/** What was done to an item as a person reads it, the newest first. */
export function historyLines(changes: readonly RecordChange[]): HistoryLine[] {
  return changes.map(({ seq, utc, user, title, before, after }) => {
    const line = { seq, at: dayAndClockText(new Date(utc)), by: user, title, fields: [] };
    if (before === null || after === null) return { ...line, kind: before === null ? 'came' : 'went' };
    const [was, is] = [before as Item, after as Item];
    const names = [...new Set([...Object.keys(was), ...Object.keys(is)])].filter(
      (name) => name !== 'rev' && name !== 'id',
    );
    const known = fieldsOf(is.kind);
    const fields = differencesOf<Record<string, unknown>>({ ...was }, { ...is }, names).map(({ path, here, file }) => {
      const field = known.find((one) => one.path === path);
      const choices = new Map(
        field?.type.is === 'choice' ? field.type.choices.map(({ value, label }) => [value, label] as const) : [],
      );
      return {
        label: field === undefined ? (unlabelled[path] ?? path) : titleOf(field.label),
        before: wordsOf(here, choices),
        after: wordsOf(file, choices),
      };
    });
    return { ...line, fields, kind: 'changed' };
  });
}
