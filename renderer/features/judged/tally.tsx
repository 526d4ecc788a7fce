import type { ReactNode } from 'react';
import type { TableJudged } from '../../../shared-types/inspection.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';

export interface Tally {
  held: number;
  done: number;
  nonconforming: number;
  indeterminate: number;
  unreadable: number;
  /** Findings nobody has accepted. */
  open: number;
  /** Lists that are not judged yet, or cannot be. */
  waiting: number;
}

/** What the lists come to; one text, so that what has not changed is not drawn again. */
export function tallyText(
  desk: { state: (of: string) => { judged: TableJudged | null } | null },
  lists: readonly string[],
): string {
  const tally: Tally = { held: 0, done: 0, nonconforming: 0, indeterminate: 0, unreadable: 0, open: 0, waiting: 0 };
  for (const list of lists) {
    const judged = desk.state(list)?.judged ?? null;
    if (judged === null) {
      tally.waiting += 1;
      continue;
    }
    const { summary, openRows, open } = judged;
    tally.open += open;
    const rows = summary.conforming + summary.nonconforming + summary.indeterminate + summary.unreadable;
    tally.held += rows;
    tally.done += rows - openRows.nonconforming - openRows.indeterminate - summary.unreadable;
    tally.nonconforming += openRows.nonconforming;
    tally.indeterminate += openRows.indeterminate;
    tally.unreadable += summary.unreadable;
  }
  return JSON.stringify(tally);
}

/** What is open of them, worst first. */
export function tallyWord(tally: Tally, hasLists: boolean): ReactNode {
  if (!hasLists) return 'none yet';
  if (tally.held === 0 && tally.waiting > 0) return 'judging';
  if (tally.nonconforming > 0) return <StateMark state="nonconforming" text={`${tally.nonconforming} nonconforming`} />;
  if (tally.unreadable > 0) return <StateMark state="unreadable" text={`${tally.unreadable} not readable`} />;
  if (tally.indeterminate > 0) return <StateMark state="indeterminate" text={`${tally.indeterminate} indeterminate`} />;
  return `${tally.held} held`;
}
