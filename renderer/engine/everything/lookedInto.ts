import type { AnyRecord } from '../../../shared-types/records/index.ts';
import type { Digest } from '../record/chain.ts';
import type { RecordFault } from '../records/checkRecords.ts';
import { intoHere } from './intoHere.ts';
import type { Differing, DifferingRecord, Into, TableInto } from './intoHere.ts';
import { outcomeFaults } from './outcomeFaults.ts';
import type { AllTables } from './readSnapshotText.ts';

/** What is shown of a file that can be brought in; of long lists the first, and how many there are. */
export interface Looked {
  /** How many records would be written. */
  puts: number;
  tables: TableInto[];
  differing: { first: DifferingRecord[]; count: number; choices: number };
  withoutLabel: { first: { id: string; code: string; tag?: number }[]; count: number };
  lasts: boolean;
}

/** Why it cannot: contradictions that cannot be mended, else what would not be whole, each with its record. */
export interface Contrary {
  contradictions: string[];
  faults: (RecordFault & { record: Partial<AnyRecord> })[];
}

/** So many rows of a list are shown. */
const differingShown = 100;
const withoutLabelShown = 20;

/**
 * Holds a file against what is kept, and looks through what would come of it.
 *
 * @param here - every record that is kept
 * @param file - every record of the file
 * @param x.differing - whether what differs stays as it is here, or becomes what the file says
 * @param x.digest - SHA-256
 * @returns what would be written, with what is shown of it; or why nothing can
 */
export async function lookedInto(
  here: AllTables,
  file: AllTables,
  x: { differing: Differing; digest: Digest },
): Promise<{ into: Into; looked: Looked } | { contrary: Contrary }> {
  const into = intoHere(here, file, x);
  if (into.faults.length > 0) return { contrary: { contradictions: into.faults, faults: [] } };
  const found = await outcomeFaults(here, into, x.digest);
  if (found.length === 0) return { into, looked: lookedOf(into) };
  const puts = new Map(into.puts.map(({ record }) => [record.id, record]));
  return { contrary: { contradictions: [], faults: found.map((one) => ({ ...one, record: puts.get(one.id) ?? {} })) } };
}

function lookedOf({ puts, tables, differing, withoutLabel, lasts }: Into): Looked {
  const choices = differing.filter(({ isChoice }) => isChoice).length;
  const bare = withoutLabel
    .slice(0, withoutLabelShown)
    .map(({ id, code, tag }) => ({ id, code, ...(tag === undefined ? {} : { tag }) }));
  return {
    ...{ puts: puts.length, tables, lasts },
    differing: { first: differing.slice(0, differingShown), count: differing.length, choices },
    withoutLabel: { first: bare, count: withoutLabel.length },
  };
}
