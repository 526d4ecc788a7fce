/** The kept records as they would be after a change: what the checks that keep them whole look at. */
import type { Change } from '../../../shared-types/journal.ts';
import type { AnyRecord, RecordOf, TableName } from '../../../shared-types/records/index.ts';

/** How the checks read what is kept. Each answer is of the same moment. */
export interface Reads {
  byIds<T extends TableName>(table: T, ids: readonly string[]): Promise<RecordOf<T>[]>;
  /** Records whose index has one of the values. */
  where<T extends TableName>(
    table: T,
    index: string,
    values: readonly (string | number | [string, string | number])[],
    /** Keys of records that need not be read. */
    isPassedOver?: (id: string) => boolean,
  ): Promise<RecordOf<T>[]>;
  /** How the number on a label was used, in words: frozen with a manifest, read for a piece; null where it was not. */
  tagUse(tag: number): Promise<string | null>;
  /** All values of the second field of a two-field index under one value of the first, in order. */
  codesUnder(table: TableName, index: string, parent: string): Promise<string[]>;
}

export interface View {
  /** The changes of one table. */
  changesIn(table: TableName): readonly Change[];
  /** The change of a record, where it has one. */
  changeOf(table: TableName, id: string): Change | undefined;
  /** Of the kept records given, and of those that come: each as it is afterwards; those that go are left out. */
  afterwards<T extends TableName>(table: T, kept: readonly RecordOf<T>[]): RecordOf<T>[];
  /** What comes or is changed in a table. */
  coming<T extends TableName>(table: T): RecordOf<T>[];
  reads: Reads;
  /** Whether the changes turn an earlier act round. */
  isUndo: boolean;
}

export function viewOf(changes: readonly Change[], reads: Reads, isUndo: boolean): View {
  const byTable = new Map<TableName, { all: Change[]; byId: Map<string, Change> }>();
  for (const change of changes) {
    let own = byTable.get(change.table);
    if (own === undefined) byTable.set(change.table, (own = { all: [], byId: new Map() }));
    own.all.push(change);
    own.byId.set(change.id, change);
  }
  const changeOf = (table: TableName, id: string): Change | undefined => byTable.get(table)?.byId.get(id);
  const changesIn = (table: TableName): readonly Change[] => byTable.get(table)?.all ?? [];
  const coming = <T extends TableName>(table: T): RecordOf<T>[] =>
    changesIn(table).flatMap(({ after }) => (after === null ? [] : [after as RecordOf<T>]));
  return {
    changesIn,
    changeOf,
    coming,
    afterwards(table, kept) {
      const untouched = kept.filter(({ id }) => changeOf(table, id) === undefined);
      return [...untouched, ...coming(table)];
    },
    reads,
    isUndo,
  };
}

/** One field of a record of any kind, where it has it as a text. */
export function textAt(record: Change['after'] | AnyRecord, field: string): string | undefined {
  const value = (record as Record<string, unknown> | null)?.[field];
  return typeof value === 'string' ? value : undefined;
}
