import { calloutColumns } from '../../../shared-types/callout.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import { readTable, TableReading, type Table, type TableForm } from '../sheet/index.ts';
import type { Callout } from './callout.ts';
import { HeldFacts } from './heldFacts.ts';
import { readCallout } from './readCallout.ts';

const form: TableForm = {
  known: calloutColumns,
  needed: [
    ['id', 'thread', 'torqueMin', 'torqueMax'],
    ['id', 'thread', 'torque', 'tolerance'],
  ],
};

/** The columns with numbers in them: where one has a decimal comma, all have. */
const quantities = [
  'torqueMin',
  'torqueMax',
  'torque',
  'tolerance',
  'torqueAlt',
  'wrench',
  'runningMin',
  'runningMax',
  'breakawayMin',
  'nutFactor',
  'frictionThread',
  'frictionBearing',
  'bearingDiameter',
  'scatter',
  'engagement',
  'internalUltimate',
  'preloadMin',
  'preloadMax',
  'toolAccuracy',
  'passes',
  'angle',
];

export interface ReadCallouts {
  callouts: Callout[];
  /** Every field that cannot be read, in the order of the lines; the rows they stand in are none of `callouts`. */
  refusals: Refusal[];
  table: Table;
}

/**
 * The callouts of a CSV file, and all that cannot be read of it.
 *
 * @param given.content - the file's bytes, or its text
 * @param given.file - its name, for refusals
 * @throws RefusedError as readTable does: where the file as a whole is no table of callouts
 */
export function readCallouts(given: { content: Uint8Array | string; file?: string }): ReadCallouts {
  const table = readTable(given, form);
  const reading = new TableReading(table, quantities);
  const facts = new HeldFacts();
  const callouts: Callout[] = [];
  for (const record of table.records) {
    const callout = readCallout(reading.row(record), facts, otherColumns(table, record.cells));
    if (callout !== null) callouts.push(callout);
  }
  return { callouts, refusals: reading.inOrder(), table };
}

/** What no rule reads, kept as it stands. */
function otherColumns({ unknownColumns }: Table, cells: readonly string[]): Record<string, string> | null {
  if (unknownColumns.length === 0) return null;
  return Object.fromEntries(unknownColumns.map(({ name, at }) => [name, cells[at] ?? '']));
}
