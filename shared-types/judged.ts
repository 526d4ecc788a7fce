/** What a judgement looks like, whatever is judged: a row of callouts, a row of what was recorded. */
import type { Refusal } from './errors.ts';
import type { Citation } from './handbook.ts';

/** Any reject makes a row nonconforming, else any query indeterminate; a note decides nothing. */
export type Severity = 'reject' | 'query' | 'note';

export type Decision = 'conforming' | 'nonconforming' | 'indeterminate';

/** What stands behind a rule: a published table, or our own words where the rule is arithmetic or common practice, and they say so. */
export type FindingSource = Citation | string;

/** One rule that fired. `value` and `limit` are the numbers compared, both in `unit`. */
export interface Finding {
  rule: string;
  severity: Severity;
  /** Plain words with numbers and units. */
  message: string;
  value?: number;
  limit?: number;
  unit?: string;
  source: FindingSource;
  /** Of `no-published-value`: the rule that could not be judged. */
  about?: string;
}

export interface JudgedRow<Computed> {
  id: string;
  decision: Decision;
  findings: Finding[];
  computed: Computed;
}

export interface JudgedSummary {
  conforming: number;
  nonconforming: number;
  indeterminate: number;
}

/** What a command that judges rows answers; a row may have fields of its own beside these. */
export interface Judged<Row extends JudgedRow<unknown>> {
  rows: Row[];
  summary: JudgedSummary;
  /** Rows passed over because they cannot be read, where that was asked for. */
  skipped?: Refusal[];
  /** Names of columns no rule reads, as the file spells them. */
  unknownColumns: string[];
}
