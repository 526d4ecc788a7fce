/** Whether what is kept is whole, and the same in both places. */
import type { SnapshotHost } from '../../../shared-types/host.ts';
import type { AnyRecord, TableName } from '../../../shared-types/records/index.ts';
import { tableNames } from '../../../shared-types/records/index.ts';
import { canonicalJson } from '../../../shared-types/canonicalJson.ts';
import { checkRecords } from '../../engine/records/checkRecords.ts';
import type { RecordFault } from '../../engine/records/checkRecords.ts';
import { sha256 } from '../../store/sha256.ts';
import type { Store } from '../../store/store.ts';

export interface CheckedKept {
  records: number;
  faults: readonly RecordFault[];
  /** Tables that the journal and the working copy do not hold alike, each with both numbers. */
  apart: readonly { table: TableName; journal: number; copy: number }[];
  /** The journal's last entry that was held against. */
  seq: number;
  journalFault: string | null;
}

/**
 * Makes a snapshot of the journal, and holds the working copy against it, table by table, by number and SHA-256; reads the journal
 * again from its first entry; and looks every record through.
 */
export async function checkKept(store: Store, host: SnapshotHost, doing: (what: string) => void): Promise<CheckedKept> {
  doing('Reading the journal from its first entry');
  const { fault } = await store.verifyJournal();
  doing('Making a snapshot of the journal');
  const made = await host.make({ why: 'asked' });
  if (made === null) throw new Error('no snapshot was made');
  const { head } = await host.read({ name: made.name, from: 0 });
  doing('Reading the working copy');
  const tables = await store.readAll();
  doing('Looking every record through');
  const faults = await checkRecords(
    tables as ReadonlyMap<TableName, ReadonlyMap<string, Record<string, unknown>>>,
    sha256,
  );
  const apart: { table: TableName; journal: number; copy: number }[] = [];
  for (const table of tableNames) {
    const own = tables.get(table) ?? new Map<string, AnyRecord>();
    if (own.size !== (head.counts[table] ?? 0) || (await sumOf(table, own)) !== head.sums[table])
      apart.push({ table, journal: head.counts[table] ?? 0, copy: own.size });
  }
  const records = [...tables.values()].reduce((sum, own) => sum + own.size, 0);
  const journalFault = fault === null ? null : `Entry ${fault.seq}: ${fault.reason}`;
  return { records, faults, apart, seq: head.seq, journalFault };
}

/** As a snapshot's head has it: of the records' lines, in order of their keys. */
function sumOf(table: TableName, records: ReadonlyMap<string, AnyRecord>): Promise<string> {
  const inOrder = [...records].toSorted(([one], [other]) => (one < other ? -1 : 1));
  return sha256(inOrder.map(([, record]) => `${canonicalJson([table, record])}\n`).join(''));
}
