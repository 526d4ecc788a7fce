/**
 * What programs of earlier versions left: everything as one text, exported by each, and a snapshot since there are any. The programs of
 * those versions wrote the journals themselves, with rows as awkward as their own checks let through: empty texts, other scripts and
 * marks, 0, the longest texts, names of things that are not there. `golden` holds the records as they were typed, line by line as
 * `["table", record]`: it was never read back from anywhere. These files are never made anew.
 */
import type { JournalEntry } from '../../../shared-types/journal.ts';
import type { AnyRecord, TableName } from '../../../shared-types/records/index.ts';

export interface Released {
  version: number;
  everything: string;
  golden: string;
  snapshot: string | null;
}

/** The records of a golden file, by table and key. */
export function goldenTables({ golden }: Pick<Released, 'golden'>): Map<TableName, Map<string, AnyRecord>> {
  const tables = new Map<TableName, Map<string, AnyRecord>>();
  for (const line of golden.split('\n')) {
    if (line === '') continue;
    const [table, record] = JSON.parse(line) as [TableName, AnyRecord];
    tables.set(table, (tables.get(table) ?? new Map<string, AnyRecord>()).set(record.id, record));
  }
  return tables;
}

export function entriesOf({ everything }: Pick<Released, 'everything'>): JournalEntry[] {
  const { journal } = JSON.parse(everything) as { journal: { entries: JournalEntry[] } };
  return journal.entries;
}
