import { asRunColumns, asRunFurtherColumns } from '../../../shared-types/asRun.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import type { Callout } from '../callout/index.ts';
import { readTable, TableReading, type RowReading, type Table, type TableForm } from '../sheet/index.ts';
import { readMoment } from './moment.ts';
import type { AsRunRecord } from './record.ts';
import { readTemperature } from './temperature.ts';

const form: TableForm = {
  known: [...asRunColumns, ...asRunFurtherColumns],
  needed: [['callout', 'position', 'cycle', 'final']],
};
const quantities = ['cycle', 'running', 'breakaway', 'final', 'turns', 'temperature', 'angle'];
const torque = { kind: 'torque', unit: 'N·m', least: 'zero' } as const;
/** No wrench gives more (common practice, no source); figures beyond it are slips of the pen. */
const torqueMostNm = 1e7;
/** More than any fastener is used or turned (common practice, no source). */
const [cyclesMost, turnsMost] = [1e6, 1e6];

export interface ReadAsRun {
  records: AsRunRecord[];
  /** Every field that cannot be read, in the order of the lines; the rows they stand in are none of `records`. */
  refusals: Refusal[];
  table: Table;
}

/**
 * What was recorded, out of a CSV file, each row with the callout it names.
 *
 * @param given.content - the file's bytes, or its text
 * @param given.file - its name, for refusals
 * @param callouts - as readCallouts gives them
 * @throws RefusedError as readTable does: where the file as a whole is no table of records
 */
export function readAsRun(
  given: { content: Uint8Array | string; file?: string },
  callouts: readonly Callout[],
): ReadAsRun {
  const table = readTable(given, form);
  const reading = new TableReading(table, quantities);
  const named = calloutsById(callouts);
  const seen = new Map<string, number>();
  const records: AsRunRecord[] = [];
  for (const each of table.records) {
    const record = readRecord(reading.row(each), named, seen);
    if (record !== null) records.push({ ...record, otherColumns: otherColumns(table, each.cells) });
  }
  return { records, refusals: reading.inOrder(), table };
}

/** What nothing reads, kept as it stands. */
function otherColumns({ unknownColumns }: Table, cells: readonly string[]): Record<string, string> | null {
  if (unknownColumns.length === 0) return null;
  return Object.fromEntries(unknownColumns.map(({ name, at }) => [name, cells[at] ?? '']));
}

/** Callouts by their ids; one that two of them have is no id. */
export function calloutsById(callouts: readonly Callout[]): ReadonlyMap<string, readonly Callout[]> {
  const named = new Map<string, Callout[]>();
  for (const callout of callouts) named.set(callout.id, [...(named.get(callout.id) ?? []), callout]);
  return named;
}

/**
 * One record out of a row.
 *
 * @param row - reads the cells and gathers what it refuses
 * @param named - the callouts by their ids
 * @param seen - lines of the records met so far, by callout, position, cycle and pass
 * @returns null where anything of the row is refused
 */
export function readRecord(
  row: RowReading,
  named: ReadonlyMap<string, readonly Callout[]>,
  seen: Map<string, number>,
): AsRunRecord | null {
  const callout = readCalloutOf(row, named);
  const position = neededText(row, 'position');
  const cycle = readCycle(row);
  const pass = row.text('pass');
  const final = readTorque(row, 'final');
  if (final === null) row.missing('final');
  const time = row.text('time');
  const rest = {
    runningNm: readTorque(row, 'running'),
    breakawayNm: readTorque(row, 'breakaway'),
    method: row.choice('method', ['set', 'read']),
    turns: readTurns(row),
    angleDeg: readAngle(row),
    tool: row.text('tool'),
    serial: row.text('serial'),
    temperature: readTemperature(row),
    time: time === null ? null : { text: time, moment: readMoment(time) },
  };
  if (position === null || cycle === null || callout === null) return null;
  const id = [callout.id, position, String(cycle), ...(pass === null ? [] : [pass])].join(' / ');
  refuseRepeated(row, JSON.stringify([callout.id, position, cycle, pass]), id, seen);
  if (row.isBad || final === null) return null;
  return {
    row: row.row,
    id,
    callout,
    position,
    cycle,
    pass,
    passNumber: numberOf(pass),
    finalNm: final,
    ...rest,
    otherColumns: null,
  };
}

function readCalloutOf(row: RowReading, named: ReadonlyMap<string, readonly Callout[]>): Callout | null {
  const id = neededText(row, 'callout');
  if (id === null) return null;
  const [callout, second] = named.get(id) ?? [];
  if (callout === undefined) row.refuse('callout', 'unknown-id', 'is no id of the callouts', id);
  else if (second !== undefined)
    row.refuse(
      'callout',
      'duplicate-id',
      `is the id of two callouts, lines ${callout.row} and ${second.row} of theirs: which is meant cannot be told`,
      id,
    );
  return second === undefined ? (callout ?? null) : null;
}

function neededText(row: RowReading, name: string): string | null {
  const text = row.text(name);
  if (text === null) row.missing(name);
  return text;
}

function readCycle(row: RowReading): number | null {
  const text = neededText(row, 'cycle');
  if (text === null) return null;
  return row.number('cycle', {
    isShare: false,
    holds: (value) => Number.isInteger(value) && value >= 1 && value <= cyclesMost,
    range: `a whole number from 1 to ${cyclesMost}`,
  });
}

function readAngle(row: RowReading): number | null {
  const found = row.quantity('angle', { kind: 'angle', unit: 'deg', least: 'zero' });
  if (found === null || found.value <= 360 * turnsMost) return found?.value ?? null;
  row.refuse('angle', 'out-of-range', `must be 0 to ${turnsMost} turns`, found.text);
  return null;
}

/** "1.25", or an angle: "450 deg". */
function readTurns(row: RowReading): number | null {
  const holds = (value: number): boolean => value >= 0 && value <= turnsMost;
  const range = `0 to ${turnsMost} turns`;
  if (!/[\p{L}°]\s*$/u.test(row.text('turns') ?? '')) return row.number('turns', { isShare: false, holds, range });
  const found = row.quantity('turns', { kind: 'angle', unit: 'rev', least: 'zero' });
  if (found === null || holds(found.value)) return found?.value ?? null;
  row.refuse('turns', 'out-of-range', `must be ${range}`, found.text);
  return null;
}

function readTorque(row: RowReading, name: string): number | null {
  const found = row.quantity(name, torque);
  if (found === null || found.value <= torqueMostNm) return found?.value ?? null;
  row.refuse(name, 'out-of-range', `must be 0 or more, at most ${torqueMostNm} N·m`, found.text);
  return null;
}

/** The same fastener, cycle and pass twice: which of the two was is not for this program to say. */
function refuseRepeated(row: RowReading, key: string, id: string, seen: Map<string, number>): void {
  const before = seen.get(key);
  if (before === undefined) seen.set(key, row.row);
  else row.refuse('position', 'duplicate-id', `has the same callout, position, cycle and pass as line ${before}`, id);
}

function numberOf(pass: string | null): number | null {
  return pass !== null && /^\d{1,4}$/.test(pass) ? Number(pass) : null;
}
