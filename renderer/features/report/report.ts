import type { Refusal } from '../../../shared-types/errors.ts';
import type { Decision, Finding, JudgedSummary } from '../../../shared-types/judged.ts';
import type { AcceptedFinding } from '../../../shared-types/records/judgedLists.ts';

/** A judged row as it is reported. */
export interface ReportRow {
  id: string;
  /** What was called out, or recorded, as it was typed: "3/8-24 UNJF-3A", "20 lbf·ft to 25 lbf·ft". */
  said: readonly string[];
  decision: Decision;
  findings: readonly Finding[];
  /** What a person takes as it is. It changes no decision, and holds for a finding only while that says the same. */
  accepted: readonly AcceptedFinding[];
  /** What was computed of it, in words with units. */
  computed: readonly string[];
  /** What that rests on: a friction or a nut factor taken, a scatter assumed. */
  assumptions: readonly string[];
}

export interface ReportHeading {
  subject: 'callouts' | 'as-run' | 'both';
  /** The list's own name. */
  name: string;
  task: string | null;
  site: string | null;
  /** The file its rows came from. */
  from: string | null;
  /** Who reports, as they call themselves; empty where nobody said. */
  person: string;
}

/** What a report says: the same content is the same text, and its hash names it. */
export interface Report {
  heading: ReportHeading;
  rows: readonly ReportRow[];
  summary: JudgedSummary;
  /** Rows no rule looked at, because they cannot be read. */
  unreadable: readonly Refusal[];
  unknownColumns: readonly string[];
  /** What a person is to know of how it was read or judged: the method of a forecast, an encoding. */
  notes: readonly string[];
}

export const subjectWords = {
  callouts: { title: 'Judgement of torque callouts', one: 'callout', many: 'callouts' },
  'as-run': { title: 'Judgement of the as-run record', one: 'record', many: 'records' },
  both: { title: 'Judgement of torque callouts and as-run records', one: 'row', many: 'rows' },
} as const;

export const decisionWords: Record<Decision, string> = {
  conforming: 'Conforming',
  nonconforming: 'Nonconforming',
  indeterminate: 'Indeterminate',
};

export const severityWords = { reject: 'Reject', query: 'Query', note: 'Note' } as const;

/** By what a row's findings become a decision. */
export const howJudged = [
  'Any reject makes a row nonconforming, else any query indeterminate; a note decides nothing.',
  'A value counts as beyond a limit where it exceeds it by more than 1e-9 of the limit. Nothing is rounded before it is compared.',
  'An accepted finding stays as found: who accepts it takes the row as it is, and changes no decision.',
  'Where the published documents held here differ, each is named. A value that none holds is told as such; none is estimated between or beyond the published ones.',
] as const;

/** The acceptance that holds for a finding: of its rule, given while it said the same. */
export function acceptanceIn(row: ReportRow, { rule, message }: Finding): AcceptedFinding | null {
  return row.accepted.find((one) => one.rule === rule && one.message === message) ?? null;
}

/** Rejects and queries nobody has accepted. */
export function openFindings(row: ReportRow): number {
  return row.findings.filter((finding) => finding.severity !== 'note' && acceptanceIn(row, finding) === null).length;
}
