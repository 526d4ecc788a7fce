import { nextBreakaway } from '../../../engine/asrun/nextBreakaway.ts';
import type { WearReading } from '../../../engine/asrun/nextBreakaway.ts';
import { fittedPolynomial, fittedValue, leverage } from '../../../engine/chance/leastSquares.ts';
import { studentDeviate } from '../../../engine/chance/studentT.ts';
import { isOut } from '../../../components/plot/cyclePlotLayout.ts';
import type { CycleLimit, CyclePlotData, CycleReading } from '../../../components/plot/cyclePlotLayout.ts';
import { inField, RefusedError } from '../../../engine/errors.ts';
import { lockingLimits, lockingLimitsOf } from '../../../engine/locking/index.ts';
import type { LockingLimits } from '../../../engine/locking/index.ts';
import { readThread } from '../../../engine/thread/index.ts';
import type { Thread } from '../../../engine/thread/index.ts';
import { convertValue, quantityIn, showLimit } from '../../../engine/units/index.ts';
import type { Unit, UnitsShown } from '../../../engine/units/index.ts';
import type { BenchFigure, BenchSheet, BenchTable } from '../benchSheet.ts';
import {
  inwardRounding,
  otherTorqueUnit,
  shownIn,
  sourceAt,
  spanIn,
  textIn,
  torqueUnitOf,
  unitsShown,
} from '../shown.ts';

type Kind = 'runningMax' | 'breakawayMin' | 'reusedMin';

const columns: readonly { kind: Kind; head: string; end: 'minimum' | 'maximum' }[] = [
  { kind: 'runningMax', head: 'Running at most', end: 'maximum' },
  { kind: 'breakawayMin', head: 'Breakaway at least', end: 'minimum' },
  { kind: 'reusedMin', head: 'Reused at least', end: 'minimum' },
];

/** Documents side by side: each limit as printed, with the kind of nut where a document tells them apart. */
export function limitsTable(found: readonly LockingLimits[], thread: Thread, units: UnitsShown): BenchTable {
  return {
    caption: `Documents side by side for ${thread.designation}`,
    heads: ['Document', ...columns.map(({ head }) => head), 'For'],
    rows: found.map((held) => [
      { text: `${held.source.number}, ${held.source.table}`, source: sourceAt(held.source, thread) },
      ...columns.map(({ kind, end }) => cellOf(held, kind, end, units)),
      [held.condition, ...held.notes].filter((text) => text !== null).join(' · ') || 'all nuts of the table',
    ]),
  };
}

function cellOf(held: LockingLimits, kind: Kind, end: 'minimum' | 'maximum', units: UnitsShown): string {
  const printed = held.printed.filter(({ limit }) => limit === kind);
  if (printed.length === 0) return 'none printed';
  return printed
    .map(({ value, unit, variant }) => {
      const text = showLimit(`${value} ${unit}`, end, units);
      return variant === null ? text : `${variant} ${text}`;
    })
    .join('; ');
}

/** Readings as typed, a cycle on each line: running, then breakaway; "-" where one was not read. */
function readingsIn(text: string): CycleReading[] {
  return text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '')
    .map((line, index) => {
      const [running = '', breakaway = '', ...more] = line.split(/\s*[,;\t]\s*/);
      if (more.length > 0)
        throw new RefusedError({
          code: 'unreadable-quantity',
          message: `Line ${index + 1}, "${line}": a running and a breakaway torque are asked for, as "30 lbf·in, 4 lbf·in".`,
          field: 'readings',
          value: line,
        });
      return { cycle: index + 1, runningNm: torqueNm(running, index), breakawayNm: torqueNm(breakaway, index) };
    });
}

function torqueNm(text: string, index: number): number | null {
  if (text === '' || /^[-–−]$/.test(text)) return null;
  try {
    return quantityIn(text, 'torque', 'N·m');
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    const message = `Line ${index + 1}: ${error.refusal.message}`;
    throw new RefusedError({ ...error.refusal, message, field: 'readings' });
  }
}

const breakawaysOf = (readings: readonly CycleReading[]): WearReading[] =>
  readings.flatMap(({ cycle, breakawayNm }) => (breakawayNm === null ? [] : [{ cycle, breakawayNm }]));

const fitMethod =
  'straight line through the breakaway torques by ordinary least squares, with its 95 % prediction interval after Student; drawn to the next cycle, no further.';

/** The line through the breakaway torques and its interval, up to the next cycle; none where it says nothing. */
function fitOf(readings: readonly CycleReading[]): CyclePlotData['fit'] {
  const read = breakawaysOf(readings);
  const next = nextBreakaway(read);
  if (next === null) return undefined;
  const line = fittedPolynomial(
    read.map(({ cycle }) => cycle),
    read.map(({ breakawayNm }) => breakawayNm),
    1,
  );
  const deviate = studentDeviate(next.confidence, line.degreesOfFreedom);
  const points = Array.from({ length: next.cycle }, (_, index) => index + 1).map((cycle) => {
    const valueNm = fittedValue(line, cycle);
    const halfNm = deviate * next.scatterNm * Math.sqrt(1 + leverage(line, cycle));
    return { cycle, valueNm, lowNm: valueNm - halfNm, highNm: valueNm + halfNm };
  });
  return { points, method: fitMethod };
}

function nextFacts(
  readings: readonly CycleReading[],
  written: Unit,
  units: UnitsShown,
): { name: string; value: string }[] {
  const next = nextBreakaway(breakawaysOf(readings));
  if (next === null) return [];
  const bends = next.straight ? '' : '. The readings bend: the line is a poor guide';
  return [
    {
      name: `Breakaway to be expected at cycle ${next.cycle}`,
      value: `${shownIn(next.torqueNm, 'N·m', written, units, 3)}; 95 % interval ${spanIn(next.intervalNm, 'N·m', written, units, 3)}${bends}`,
    },
  ];
}

/** A limit of the plot, as its document prints it too. */
type Strictest = CycleLimit & { printed: string };

/** The strictest limit of each kind, with the document that prints it. */
function strictest(found: readonly LockingLimits[]): Strictest[] {
  const ofKind = (kind: Kind, of: CycleLimit['of'], name: string): Strictest[] => {
    const all = found.flatMap(({ printed, source }) =>
      printed
        .filter(({ limit }) => limit === kind)
        .map(({ value, unit }) => ({
          torqueNm: convertValue(value, unit, 'N·m'),
          printed: `${value} ${unit}`,
          source: source.number,
          name,
          of,
        })),
    );
    const [first] = all.toSorted((a, b) => (of === 'running' ? a.torqueNm - b.torqueNm : b.torqueNm - a.torqueNm));
    return first === undefined ? [] : [first];
  };
  return [
    ...ofKind('runningMax', 'running', 'running at most'),
    ...ofKind('breakawayMin', 'breakaway', 'breakaway at least'),
  ];
}

export const limitsSheet: BenchSheet = {
  id: 'limits',
  name: 'Running and breakaway limits',
  fields: [
    { key: 'thread', label: 'Thread', is: 'text', hint: 'as "1/4-28" or "M8"' },
    {
      key: 'document',
      label: 'Document',
      is: 'text',
      optional: true,
      hint: 'a number or another name of it, as "NASM25027"; without it every one that has the size',
    },
    {
      key: 'readings',
      label: 'Readings, optional: running, breakaway',
      is: 'lines',
      optional: true,
      hint: 'one cycle on each line, each torque with its unit; "-" where one was not read',
    },
  ],
  paths: { locking: 'document' },
  first: {
    thread: '1/4-28',
    readings:
      '24 lbf·in, 9 lbf·in\n21 lbf·in, 8 lbf·in\n19 lbf·in, 6.5 lbf·in\n18 lbf·in, 5 lbf·in\n16 lbf·in, 3 lbf·in',
  },
  answer(typed, units) {
    const thread = inField('thread', () => readThread(textIn(typed, 'thread') ?? ''));
    const document = textIn(typed, 'document');
    const found = document === undefined ? lockingLimitsOf(thread) : [lockingLimits({ thread, document })];
    const readings = readingsIn(typed['readings'] ?? '');
    const limits = strictest(found);
    const first = (typed['readings'] ?? '').split(/[,;\t\n]/)[0];
    const written = readings.length === 0 ? 'N·m' : torqueUnitOf(first);
    const out = outOf(readings, limits);
    const figures: BenchFigure[] =
      readings.length === 0
        ? []
        : [
            {
              is: 'cycles',
              plot: {
                readings,
                limits,
                fit: fitOf(readings),
                units: unitsShown(written, otherTorqueUnit(written, 1), units),
                title: `Running and breakaway torque against cycles, ${thread.designation}`,
                source: `Readings as typed. Limits: ${[...new Set(limits.map(({ source }) => source))].join('; ') || 'none held'}, the strictest of the documents above.`,
                assumed: ['The readings are of one fastener, in the order of its cycles.'],
              },
            },
          ];
    return {
      lead: found.length === 0 ? 'No published value for' : 'Documents that have the size',
      value: found.length === 0 ? thread.designation : `${found.length} for ${thread.designation}`,
      ...(readings.length === 0 || limits.length === 0
        ? {}
        : {
            state:
              out.length === 0
                ? { mark: 'conforming', text: 'Conforming: every reading' }
                : { mark: 'nonconforming', text: `Nonconforming: cycle ${out.join(', ')}` },
          }),
      facts: [
        ...limits.map(({ name, printed, source, of }) => ({
          name: `Strictest, ${name}`,
          value: `${showLimit(printed, of === 'running' ? 'maximum' : 'minimum', units)}, ${source}`,
        })),
        ...nextFacts(readings, written, units),
      ],
      formulas: [],
      tables: found.length === 0 ? [] : [limitsTable(found, thread, units)],
      figures,
      queries:
        found.length > 1
          ? ['The documents differ in what they limit and by how much. Which one rules is not chosen here.']
          : limits.length === 0 && readings.length > 0
            ? ['No limit is held for the size: the readings are not judged.']
            : [],
      valid: 'diameter and pitch as printed; a table is read, never filled in, and nothing is interpolated.',
      assumed: [],
      sources: found.map(({ source }) => sourceAt(source, thread)),
      rounding: inwardRounding,
    };
  },
};

function outOf(readings: readonly CycleReading[], limits: readonly CycleLimit[]): number[] {
  const breaks = (nm: number | null, of: 'running' | 'breakaway'): boolean => nm !== null && isOut(nm, of, limits);
  return readings
    .filter(({ runningNm, breakawayNm }) => breaks(runningNm, 'running') || breaks(breakawayNm, 'breakaway'))
    .map(({ cycle }) => cycle);
}
