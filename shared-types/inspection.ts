/** A table of callouts as a screen lists it: a line for each row, everything else of a row asked for one by one. */
import type { CalloutRow, PublishedBand, PublishedLocking } from './callout.ts';
import type { Refusal } from './errors.ts';
import type { Decision, JudgedSummary, Severity } from './judged.ts';

/** A row as it was typed, by column; what a person accepted of it. */
export interface TypedRow {
  key: string;
  cells: Readonly<Record<string, string>>;
  accepted?: readonly { rule: string; message: string }[];
}

/** `unreadable`: some cell of it cannot be read, so that no rule looked at it. */
export type LineState = Decision | 'unreadable';

export interface CalloutLine {
  key: string;
  id: string;
  /** Of a file, its line; of a kept list, its place in it. */
  row: number;
  state: LineState;
  thread: string;
  /** The band's ends as typed; a middle and a tolerance stand as one text. */
  band: { min: string; max: string } | { text: string };
  /** Least torque called out [N·m], to sort by. */
  minNm: number | null;
  /** What a tool as accurate as the callout says applies in the middle of its aim [N·m]. */
  tool: { from: number; to: number; aimMin: number; aimMax: number } | null;
  findings: { rule: string; severity: Severity }[];
  /** Rejects and queries that nobody has accepted. */
  open: number;
  accepted: number;
}

/** What would conform, in words; `cells` are what to write, where it is one band of torque. */
export interface Mend {
  rules: string[];
  text: string;
  cells?: { torqueMin: string; torqueMax: string };
}

/** Everything about one row. */
export interface CalloutLook {
  key: string;
  cells: Readonly<Record<string, string>>;
  row: CalloutRow | null;
  refusals: Refusal[];
  bands: PublishedBand[];
  locking: PublishedLocking[];
  mends: Mend[];
  /** Preload against seating torque, where the callout says how one follows from the other. */
  preload: {
    by: 'nutFactor' | 'friction';
    formula: string;
    stressAreaMm2: number | null;
    preloadMinN: number | null;
    preloadMaxN: number | null;
  } | null;
  toolAccuracy: number | null;
  runningIncluded: boolean | null;
}

export interface TableJudged {
  summary: JudgedSummary & { unreadable: number };
  /** Rejects and queries not accepted, over all rows. */
  open: number;
  /** Rows with such, by what they are decided to be. */
  openRows: { nonconforming: number; indeterminate: number };
  columns: string[];
  unknownColumns: string[];
  notes: string[];
  /** How often each rule fired. */
  rules: Record<string, number>;
  /** What could not be read, as many as are told. */
  refusals: Refusal[];
}

/** How a person looks at a table: what is shown and in which order. */
export interface LineView {
  text: string;
  state: LineState | 'all';
  rule: string | null;
  severity: Severity | 'all';
  /** Whether something a person accepted is among it, or something is still open. */
  acceptance: 'all' | 'open' | 'accepted';
  sort: 'position' | 'id' | 'thread' | 'torque' | 'state' | 'findings';
  down: boolean;
}
