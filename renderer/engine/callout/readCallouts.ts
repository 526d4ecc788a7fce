import { calloutColumns } from '../../../shared-types/callout.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import { readTable, TableReading, type Table, type TableContent, type TableForm } from '../sheet/index.ts';
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

/** A table of callouts before its rows are read. */
export interface OpenCallouts {
  table: Table;
  /** The callouts one after another, each read when it is asked for. */
  callouts: () => Generator<Callout>;
  /** What cannot be read, once all were asked for. */
  refusals: () => Refusal[];
  /** Whether anything was refused so far. */
  isRefused: () => boolean;
}

/**
 * A CSV file of callouts, opened: its header is read, its rows are not.
 *
 * @param given.content - the file's bytes, or its text
 * @param given.file - its name, for refusals
 * @param given.share - which part of its rows; all where it is not given
 * @throws RefusedError as readTable does: where the file as a whole is no table of callouts
 */
export function openCallouts(given: TableContent): OpenCallouts {
  const table = readTable(given, form);
  const reading = new TableReading(table, quantities);
  const facts = new HeldFacts();
  return {
    table,
    *callouts() {
      for (const record of table.records) {
        const callout = readCallout(reading.row(record), facts, otherColumns(table, record.cells));
        if (callout !== null) yield callout;
      }
    },
    refusals: () => reading.inOrder(),
    isRefused: () => reading.refusals.length + table.ragged.length > 0,
  };
}

/**
 * The callouts of a CSV file, and all that cannot be read of it.
 *
 * @param given.content - the file's bytes, or its text
 * @param given.file - its name, for refusals
 * @throws RefusedError as readTable does: where the file as a whole is no table of callouts
 */
export function readCallouts(given: { content: Uint8Array | string; file?: string }): ReadCallouts {
  const opened = openCallouts(given);
  const callouts = [...opened.callouts()];
  return { callouts, refusals: opened.refusals(), table: opened.table };
}

/** What no rule reads, kept as it stands. */
function otherColumns({ unknownColumns }: Table, cells: readonly string[]): Record<string, string> | null {
  if (unknownColumns.length === 0) return null;
  return Object.fromEntries(unknownColumns.map(({ name, at }) => [name, cells[at] ?? '']));
}
