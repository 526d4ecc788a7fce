import type { Counts, TableName } from '../../../shared-types/records/index.ts';
import { tableNames } from '../../../shared-types/records/index.ts';
import type { Hindrance, Tally } from '../../store/store.ts';
import { grouped } from './grouped.ts';

export interface TallyRow {
  table: TableName;
  word: string;
  journal: number;
  /** Null where the working copy does not answer. */
  found: number | null;
}

const words: Record<TableName, string> = {
  shelves: 'Shelves',
  items: 'Items',
  sites: 'Sites',
  interfaces: 'Interfaces',
  tasks: 'Tasks',
  outings: 'Outings',
  steps: 'Steps',
  results: 'Planned bags',
  notes: 'Bench results',
  preferences: 'Preferences',
  calloutLists: 'Lists of callouts',
  callouts: 'Callouts',
  asRunLists: 'Lists of as-run records',
  asRuns: 'As-run records',
  watchOuts: 'Watch-outs',
  revisions: 'Frozen manifests',
  events: 'Events',
  discrepancies: 'Discrepancies',
};

export const totalRecords = (counts: Counts): number => tableNames.reduce((sum, name) => sum + counts[name], 0);

/** Both sides of a hindrance, where it has them. */
export function sidesOf(hindrance: Hindrance): { journal: Tally; found: Tally | null } | null {
  return 'found' in hindrance ? { journal: hindrance.journal, found: hindrance.found } : null;
}

/** Table by table; those that neither side holds are left out. */
export function tallyRows({ journal, found }: { journal: Tally; found: Tally | null }): TallyRow[] {
  return tableNames.flatMap((table) => {
    const row = { table, word: words[table], journal: journal.counts[table], found: found?.counts[table] ?? null };
    return row.journal === 0 && (row.found ?? 0) === 0 ? [] : [row];
  });
}

/** "3 lacking", "1 too many": in the check's own unit. */
export function differenceText({ journal, found }: Pick<TallyRow, 'journal' | 'found'>): string {
  if (found === null) return 'not known';
  if (found === journal) return 'as many';
  return found < journal ? `${grouped(journal - found)} lacking` : `${grouped(found - journal)} more`;
}
