import type { Refusal } from '../../../shared-types/errors.ts';
import type { AnyRecord } from '../../../shared-types/records/index.ts';
import { keyFields } from '../../engine/records/keyFields.ts';
import { breaths } from '../breathe.ts';
import { nameOf, tableWords } from '../recordNames.ts';
import type { View } from './view.ts';

export function keysAt(record: Record<string, unknown> | AnyRecord | null, field: string): string[] {
  const value = (record as Record<string, unknown> | null)?.[field];
  if (typeof value === 'string') return [value];
  return Array.isArray(value) ? value.filter((key): key is string => typeof key === 'string') : [];
}

/** Keys that a record newly names and nothing has. */
export async function missingParents(view: View): Promise<Refusal[]> {
  const refusals: Refusal[] = [];
  const breath = breaths();
  for (const { table, field, to } of keyFields) {
    const named: { record: AnyRecord; key: string }[] = [];
    for (const record of view.coming(table)) {
      await breath();
      const before = field === 'id' ? [] : keysAt(view.changeOf(table, record.id)?.before ?? null, field);
      for (const key of keysAt(record, field)) if (!before.includes(key)) named.push({ record, key });
    }
    if (named.length === 0) continue;
    const asked = [...new Set(named.map(({ key }) => key))];
    const kept = await view.reads.byIds(to, asked);
    const there = new Set(view.afterwards(to, kept).map(({ id }) => id));
    for (const { record, key } of named) {
      if (there.has(key)) continue;
      refusals.push({
        code: 'unknown-id',
        message: `${nameOf(table, record)}: its ${field === 'id' ? 'task' : field} names a ${tableWords[to].one} that is not kept`,
        field: `${table}.${field}`,
        value: key,
      });
    }
  }
  return refusals;
}
