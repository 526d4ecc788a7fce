import type { Change } from '../../../shared-types/journal.ts';
import type { AnyRecord, RecordOf, TableName } from '../../../shared-types/records/index.ts';
import { tableNames } from '../../../shared-types/records/index.ts';
import type { KeptTable } from './liveTable.ts';
import { createLiveTable } from './liveTable.ts';
import { tableSource } from './tableSource.ts';
import type { WorkingCopy } from './workingCopy.ts';

/** Keys of changed records, table by table; null where there are so many that the whole table is read again. */
export type ChangedKeys = [table: TableName, ids: string[] | null][];

export interface LiveTables {
  table<T extends TableName>(name: T): KeptTable<RecordOf<T>>;
  attach(copy: WorkingCopy): void;
  take(changes: readonly Change[]): void;
  readAgain(keys: ChangedKeys): void;
  reload(): void;
  fail(fault: string): void;
}

/** Reading so many one by one costs more than reading the table. */
const keysMost = 2000;

export function createLiveTables(): LiveTables {
  const tables = new Map(tableNames.map((name) => [name, createLiveTable<AnyRecord>()]));
  const table = <T extends TableName>(name: T): KeptTable<RecordOf<T>> =>
    tables.get(name) as unknown as KeptTable<RecordOf<T>>;
  return {
    table,
    attach(copy) {
      for (const [name, live] of tables) live.attach(tableSource(copy, name));
    },
    take(changes) {
      const byTable = new Map<TableName, Map<string, AnyRecord | null>>();
      for (const { table: name, id, after } of changes) {
        const own = byTable.get(name) ?? new Map<string, AnyRecord | null>();
        byTable.set(name, own.set(id, after as AnyRecord | null));
      }
      // Each in its place among the tables, whatever the order of the changes.
      for (const [name, live] of tables) live.take(byTable.get(name) ?? new Map());
    },
    readAgain(keys) {
      for (const [name, ids] of keys) {
        if (ids === null) tables.get(name)?.reload();
        else tables.get(name)?.readAgain(ids);
      }
    },
    reload() {
      for (const live of tables.values()) live.reload();
    },
    fail(fault) {
      for (const live of tables.values()) live.fail(fault);
    },
  };
}

export function changedKeys(changes: readonly Change[]): ChangedKeys {
  const keys = new Map<TableName, string[]>();
  for (const { table, id } of changes) {
    const ids = keys.get(table) ?? [];
    ids.push(id);
    keys.set(table, ids);
  }
  return [...keys].map(([table, ids]) => [table, ids.length > keysMost ? null : ids]);
}
