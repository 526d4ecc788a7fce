/** What was recorded at the work site, judged: one row for each fastener, cycle and pass. */
import type { Judged, JudgedRow } from './judged.ts';

/** Columns that are read, as the headless contract names them. */
export const asRunColumns = [
  'callout',
  'position',
  'cycle',
  'pass',
  'running',
  'breakaway',
  'final',
  'method',
  'turns',
  'tool',
  'serial',
  'temperature',
  'time',
] as const;

/** One more, beyond the contract: how far the fastener was turned after the snug torque. */
export const asRunFurtherColumns = ['angle'] as const;

/** Which of a callout's two meanings a row was judged by. */
export type JudgedAs = 'final' | 'seating' | 'both';

/** The numbers behind a row's judgement. Null where a number is not recorded or not held. */
export interface AsRunComputed {
  /** The callout's band. */
  bandNm: { min: number; max: number };
  judgedAs: JudgedAs;
  finalNm: number;
  runningNm: number | null;
  /** Final less running torque. */
  seatingNm: number | null;
  breakawayNm: number | null;
  /** The turn after the snug torque, where one is recorded. */
  angleDeg: number | null;
  runningMaxNm: number | null;
  /** Of this row's cycle. */
  breakawayMinNm: number | null;
  turns: number | null;
  /** Of the positions that were turned in the same callout, cycle and pass; null for fewer than four. */
  turnsMedian: number | null;
  /** How far a position may lie from the median. */
  turnsAllowed: number | null;
}

export interface AsRunRow extends JudgedRow<AsRunComputed> {
  /** The file's line. */
  row: number;
  callout: string;
  position: string;
  cycle: number;
  pass: string | null;
  method: 'set' | 'read' | null;
  tool: string | null;
  serial: string | null;
  temperatureC: number | null;
  time: string | null;
  /** What no rule reads, as it stands in the file. */
  otherColumns?: Record<string, string>;
}

/** What a straight line through a position's breakaway torques makes of the next cycle. */
export interface NextBreakaway {
  cycle: number;
  torqueNm: number;
  /** Within which the next reading lies with this confidence, if the fall is straight. */
  intervalNm: { min: number; max: number };
  confidence: number;
  slopeNmPerCycle: number;
  /** Standard deviation of the readings about the line. */
  scatterNm: number;
  /** Cycles with a reading. */
  cycles: number;
  /** False where the readings bend more than their scatter explains: the line and its interval then hold less than they say. */
  straight: boolean;
}

/** When a position's breakaway torque passes under its minimum. */
export interface PassingCycle {
  /**
   * `between`: from `fromCycle` to `toCycle`; `not-before`: not before `fromCycle`, and perhaps never; `cannot-know`: the readings tell
   * nothing, `why` says what is missing; `under-already`: the reading of `fromCycle` is under the minimum.
   */
  status: 'between' | 'not-before' | 'cannot-know' | 'under-already';
  why: string;
  fromCycle: number | null;
  toCycle: number | null;
  /** If the torque goes on falling by the same share; no limit. */
  likeliestCycle: number | null;
  confidence: number;
}

/** Breakaway torque of one position over its cycles. */
export interface WearSeries {
  callout: string;
  position: string;
  readings: { cycle: number; breakawayNm: number; runningNm: number | null }[];
  /** The least breakaway torque at the next cycle. */
  minimumNm: number | null;
  next: NextBreakaway | null;
  passing: PassingCycle;
}

/** A tool found out of calibration, and what it re-opens. */
export interface ReopenedBy {
  serial: string;
  /** The last day the tool is known to have been right; null where none is: all it ever did is re-opened. */
  lastGood: string | null;
  foundOut: string;
  /** Ids of the rows. */
  rows: string[];
}

export interface AsRunResult extends Judged<AsRunRow> {
  /** One for each position with breakaway torques over at least three cycles. */
  series: WearSeries[];
  /** How next torque and passing cycle of the series were worked out, in words. */
  wearMethod: string;
  /** Where a list of tools was given. */
  reopened?: ReopenedBy[];
  caution: string;
}
