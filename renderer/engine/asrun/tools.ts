import { RefusedError } from '../errors.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import { readTable, TableReading, type RowReading, type TableForm } from '../sheet/index.ts';
import { readMoment, type Moment } from './moment.ts';

const form: TableForm = {
  known: ['serial', 'calibrationDue', 'lastGood', 'foundOut'],
  needed: [['serial']],
};

/** A day as typed. */
export interface Day {
  text: string;
  moment: Moment;
}

/** What is known of one tool's calibration. */
export interface TrackedTool {
  serial: string;
  /** The last day on which its calibration holds. */
  calibrationDue: Day | null;
  /** The day it was found out of calibration, and the last day it is known to have been right. */
  foundOut: Day | null;
  lastGood: Day | null;
}

/**
 * The list of tools of a CSV file: `serial`, `calibrationDue`, `lastGood`, `foundOut`, days as 2026-04-30.
 *
 * @param given.content - the file's bytes, or its text
 * @param given.file - its name, for refusals
 * @returns the tools by their serial, and every field that cannot be read
 * @throws RefusedError as readTable does
 */
export function readTools(given: { content: Uint8Array | string; file?: string }): {
  tools: Map<string, TrackedTool>;
  refusals: Refusal[];
} {
  const table = readTable(given, form);
  const reading = new TableReading(table, []);
  const tools = new Map<string, TrackedTool>();
  for (const record of table.records) {
    const row = reading.row(record);
    const serial = row.text('serial');
    if (serial === null) row.missing('serial');
    else if (tools.has(serial)) row.refuse('serial', 'duplicate-id', 'stands in the list twice', serial);
    const days = {
      calibrationDue: readDay(row, 'calibrationDue'),
      foundOut: readDay(row, 'foundOut'),
      lastGood: readDay(row, 'lastGood'),
    };
    refuseTurned(row, days);
    if (serial !== null && !row.isBad) tools.set(serial, { serial, ...days });
  }
  return { tools, refusals: reading.inOrder() };
}

function readDay(row: RowReading, name: string): Day | null {
  const text = row.text(name);
  if (text === null) return null;
  return row.attempt(name, text, () => {
    const moment = readMoment(text);
    if (moment?.form === 'day') return { text, moment };
    throw new RefusedError({ code: 'wrong-shape', message: 'is no day, as 2026-04-30' });
  });
}

function refuseTurned(row: RowReading, { foundOut, lastGood }: Pick<TrackedTool, 'foundOut' | 'lastGood'>): void {
  if (foundOut === null || lastGood === null || lastGood.moment.seconds <= foundOut.moment.seconds) return;
  row.refuse('lastGood', 'contradiction', `is after the day it was found out, ${foundOut.text}`, lastGood.text);
}
