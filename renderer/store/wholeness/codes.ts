import type { Refusal } from '../../../shared-types/errors.ts';
import type { TableName } from '../../../shared-types/records/index.ts';
import { breathe } from '../breathe.ts';
import { nameOf } from '../recordNames.ts';
import { textAt } from './view.ts';
import type { View } from './view.ts';

/** Where codes are unique: within which other record. */
const within = [
  { table: 'items', parent: 'shelf' },
  { table: 'interfaces', parent: 'site' },
  { table: 'outings', parent: 'task' },
  { table: 'steps', parent: 'task' },
] as const satisfies { table: TableName; parent: string }[];

/** From so many new codes on, the parent's codes are read in one go. */
const many = 300;

/** Records whose code another one within the same shelf, site or task has already. */
export async function codeClashes(view: View): Promise<Refusal[]> {
  const refusals: Refusal[] = [];
  for (const { table, parent } of within) {
    const fresh = view.coming(table).filter((record) => {
      const before = view.changeOf(table, record.id)?.before ?? null;
      return textAt(before, 'code') !== record.code || textAt(before, parent) !== textAt(record, parent);
    });
    if (fresh.length === 0) continue;
    if (fresh.length > many) await breathe();
    const taken = await takenPairs(view, table, parent, fresh);
    if (fresh.length > many) await breathe();
    for (const record of fresh) {
      const pair = pairText(textAt(record, parent) ?? '', record.code);
      const holders = taken.get(pair) ?? 0;
      if (holders < 2) continue;
      refusals.push({
        code: 'duplicate-id',
        message: `${nameOf(table, record)}: the code is there already in the same ${parent}`,
        field: `${table}.code`,
        value: record.code,
      });
    }
  }
  return refusals;
}

const pairText = (parent: string, code: string): string => JSON.stringify([parent, code]);

/** How many records will have each pair of parent and code that comes. */
async function takenPairs(
  view: View,
  table: (typeof within)[number]['table'],
  parent: string,
  fresh: readonly { id: string; code: string }[],
): Promise<Map<string, number>> {
  const counts = new Map<string, number>();
  const count = (pair: string): void => void counts.set(pair, (counts.get(pair) ?? 0) + 1);
  for (const record of view.coming(table)) count(pairText(textAt(record, parent) ?? '', record.code));
  const index = `[${parent}+code]`;
  if (fresh.length <= many) {
    const pairs = fresh.map((record): [string, string] => [textAt(record, parent) ?? '', record.code]);
    const kept = await view.reads.where(table, index, pairs);
    for (const record of kept)
      if (view.changeOf(table, record.id) === undefined) count(pairText(textAt(record, parent) ?? '', record.code));
    return counts;
  }
  for (const of of new Set(fresh.map((record) => textAt(record, parent) ?? ''))) {
    for (const code of await view.reads.codesUnder(table, index, of)) count(pairText(of, code));
  }
  // Those read in one go include the records that this change replaces or takes away.
  for (const change of view.changesIn(table)) {
    if (change.before === null) continue;
    const pair = pairText(textAt(change.before, parent) ?? '', textAt(change.before, 'code') ?? '');
    const held = counts.get(pair);
    if (held !== undefined) counts.set(pair, held - 1);
  }
  return counts;
}
