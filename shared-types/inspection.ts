/** A table of callouts as a screen lists it: a line for each row, everything else of a row asked for one by one. */
import type { AsRunRow, ReopenedBy, WearSeries } from './asRun.ts';
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

/** What every judged line says. */
export interface JudgedLine {
  key: string;
  id: string;
  /** Of a file, its line; of a kept list, its place in it. */
  row: number;
  state: LineState;
  findings: { rule: string; severity: Severity }[];
  /** Rejects and queries that nobody has accepted. */
  open: number;
  accepted: number;
}

export interface CalloutLine extends JudgedLine {
  thread: string;
  /** The band's ends as typed; a middle and a tolerance stand as one text. */
  band: { min: string; max: string } | { text: string };
  /** Least torque called out [N·m], to sort by. */
  minNm: number | null;
  /** What a tool as accurate as the callout says applies in the middle of its aim [N·m]. */
  tool: { from: number; to: number; aimMin: number; aimMax: number } | null;
}

/** What was recorded, as a list shows it; texts as typed. */
export interface AsRunLine extends JudgedLine {
  callout: string;
  position: string;
  cycle: string;
  pass: string;
  running: string;
  breakaway: string;
  final: string;
  turns: string;
  serial: string;
  time: string;
  /** Final torque [N·m], to sort and to draw by; null where it cannot be read. */
  finalNm: number | null;
  runningNm: number | null;
  breakawayNm: number | null;
  /** What of the final torque seats the fastener; the final torque itself where the callout's band holds the running torque. */
  seatingNm: number | null;
  /** The band that what seats or the final torque is held against. */
  bandNm: { min: number; max: number } | null;
  runningMaxNm: number | null;
  breakawayMinNm: number | null;
  /** What is read of a cycle; null where it cannot be. */
  cycleNumber: number | null;
  /** A tool found out re-opened it, and nobody has accepted that. */
  reopened: boolean;
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

/** What lines are sorted by; `position` is how the table has them. */
export type LineSort =
  | 'position'
  | 'id'
  | 'thread'
  | 'torque'
  | 'state'
  | 'findings'
  | 'place'
  | 'cycle'
  | 'running'
  | 'breakaway'
  | 'serial'
  | 'time';

/** How a person looks at a table: what is shown and in which order. */
export interface LineView {
  text: string;
  state: LineState | 'all';
  rule: string | null;
  severity: Severity | 'all';
  /** Whether something a person accepted is among it, or something is still open. */
  acceptance: 'all' | 'open' | 'accepted';
  sort: LineSort;
  down: boolean;
}

/** What everything looked at says at least. */
export interface TypedLook {
  key: string;
  cells: Readonly<Record<string, string>>;
  /** What is judged of it; null where it cannot be read. */
  row: unknown;
  refusals: Refusal[];
}

/** A row as typed with its judgement, and nothing drawn from it. */
export type JudgedTyped<Look extends TypedLook> = Pick<Look, keyof TypedLook>;

/** What is known of a tool: from the catalog, and found out after the work. Days as 2026-04-30. */
export interface KnownTool {
  serial: string;
  calibrationDue?: string;
  lastGood?: string;
  foundOut?: string;
}

/** What a list of records is judged against. */
export interface AsRunBeside {
  callouts: { columns: readonly string[]; rows: readonly Pick<TypedRow, 'cells'>[] };
  /** Empty where no tool is known: nothing is traced then. */
  tools: readonly KnownTool[];
}

/** Everything about one record. */
export interface AsRunLook {
  key: string;
  cells: Readonly<Record<string, string>>;
  row: AsRunRow | null;
  refusals: Refusal[];
  /** The callout as typed; empty where it is not in the list. */
  callout: Readonly<Record<string, string>>;
  /** Breakaway torque over the cycles of its fastener, where there are cycles enough. */
  series: WearSeries | null;
}

/** Order of tightening of a callout, as its column "sequence" has it, or the interface it is for. */
export interface TighteningOrder {
  callout: string;
  positions: string[];
  /** "interface B, by step b3"; absent where it is the callout's own. */
  from?: string;
}

export interface AsRunTableJudged extends TableJudged {
  series: WearSeries[];
  wearMethod: string;
  reopened: ReopenedBy[];
  orders: TighteningOrder[];
  /** Callouts of the list that cannot be read: what was recorded against them cannot be judged. */
  calloutRefusals: Refusal[];
}
