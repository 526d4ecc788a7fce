import type { AnyRecord, TableName } from '../../../shared-types/records/index.ts';
import { keyFields, onceWithin } from '../records/keyFields.ts';
import type { AllTables } from './readSnapshotText.ts';

type Row = Record<string, unknown>;

/** Tables whose records people tell apart by a code within another record. */
const byCode = onceWithin.flatMap((one) => (one.field === 'code' ? [one] : []));

/**
 * A file's records under the keys that the same things have here. Two copies that once had the same shelf may each have added a thing of
 * the same code to it, each with a key of its own: the file's then goes by the key that is here, and so does whatever names it.
 *
 * @param here - what is kept
 * @param file - what the file holds
 * @returns the file's records, by the keys they go by here
 */
export function sameUnderOtherKeys(here: AllTables, file: AllTables): AllTables {
  const keys = new Map<string, string>();
  for (const { table, parent, field } of byCode) {
    const within = (row: Row): string => JSON.stringify([row[parent], row[field]]);
    const taken = new Map([...(here.get(table) ?? [])].map(([id, row]) => [within(row as Row), id]));
    for (const [id, row] of file.get(table) ?? []) {
      if (here.get(table)?.has(id) === true) continue;
      const other = taken.get(within(row as Row));
      // What the file has under that key itself is another thing there.
      if (other !== undefined && file.get(table)?.has(other) !== true) keys.set(keyOf(table, id), other);
    }
  }
  if (keys.size === 0) return file;
  const tables = new Map<TableName, Map<string, AnyRecord>>();
  for (const [table, rows] of file) {
    const own = new Map<string, AnyRecord>();
    for (const [id, row] of rows) {
      const renamed = { ...named(table, row as Row, keys), id: keys.get(keyOf(table, id)) ?? id } as AnyRecord;
      own.set(renamed.id, renamed);
    }
    tables.set(table, own);
  }
  return tables;
}

const keyOf = (table: TableName, id: unknown): string => `${table} ${String(id)}`;

/** The record with the keys it names; a frozen manifest and its events stay as they were hashed. */
function named(table: TableName, row: Row, keys: ReadonlyMap<string, string>): Row {
  const to = (of: TableName, id: unknown): unknown => keys.get(keyOf(of, id)) ?? id;
  const changed: Row = { ...row };
  for (const { table: from, field, to: of } of keyFields) {
    if (from !== table || field === 'id' || changed[field] === undefined) continue;
    const held = changed[field];
    changed[field] = Array.isArray(held) ? held.map((id) => to(of, id)) : to(of, held);
  }
  if (table === 'watchOuts')
    changed['ties'] = (row['ties'] as Row[]).map((tie) => ({
      ...tie,
      ...(tie['to'] === 'interface' ? { interface: to('interfaces', tie['interface']) } : {}),
      ...(tie['to'] === 'step' ? { step: to('steps', tie['step']) } : {}),
    }));
  if (table === 'shelves' && row['leftApart'] !== undefined)
    changed['leftApart'] = (row['leftApart'] as { items: Row[] }[]).map((apart) => ({
      ...apart,
      items: apart.items.map((item) => ({ ...item, id: to('items', item['id']) })),
    }));
  return changed;
}
