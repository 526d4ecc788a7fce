import type { AnyRecord, TableName } from '../../../shared-types/records/index.ts';
import type { Digest } from '../record/chain.ts';
import { checkRecords } from '../records/checkRecords.ts';
import type { KeptTables, RecordFault } from '../records/checkRecords.ts';
import type { Into } from './intoHere.ts';
import type { AllTables } from './readSnapshotText.ts';

/**
 * What would be wrong with all that is kept, once a file were brought in, and is not wrong now: a step whose outing has another code here,
 * a chain with a gap.
 *
 * @param here - every record that is kept
 * @param into - what would be written
 * @param digest - SHA-256
 * @returns each fault; none where the outcome is as whole as what is kept
 */
export async function outcomeFaults(here: AllTables, into: Pick<Into, 'puts'>, digest: Digest): Promise<RecordFault[]> {
  if (into.puts.length === 0) return [];
  const after = new Map<TableName, Map<string, AnyRecord>>([...here].map(([name, rows]) => [name, new Map(rows)]));
  for (const { table, record } of into.puts)
    after.set(table, (after.get(table) ?? new Map<string, AnyRecord>()).set(record.id, record));
  const faults = await checkRecords(after as KeptTables, digest);
  if (faults.length === 0) return [];
  const before = new Set((await checkRecords(here as KeptTables, digest)).map(keyOf));
  return faults.filter((fault) => !before.has(keyOf(fault)));
}

const keyOf = ({ table, id, rule, message }: RecordFault): string => `${table} ${id} ${rule} ${message}`;
