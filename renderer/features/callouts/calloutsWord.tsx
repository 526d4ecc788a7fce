import { useSyncExternalStore } from 'react';
import type { ReactNode } from 'react';
import type { JobPlace } from '../../components/JobLine/JobLine.tsx';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { placeAddress } from '../../store/place.ts';
import { useTable } from '../session/useStore.ts';
import { keptDesk } from './desks.ts';

interface Tally {
  held: number;
  done: number;
  nonconforming: number;
  indeterminate: number;
  unreadable: number;
  /** Lists that are not judged yet, or cannot be. */
  waiting: number;
}

/** What the lists come to; one text, so that what has not changed is not drawn again. */
function tallyText(lists: readonly string[]): string {
  const tally: Tally = { held: 0, done: 0, nonconforming: 0, indeterminate: 0, unreadable: 0, waiting: 0 };
  for (const list of lists) {
    const judged = keptDesk().state(list)?.judged ?? null;
    if (judged === null) {
      tally.waiting += 1;
      continue;
    }
    const { summary, openRows } = judged;
    const rows = summary.conforming + summary.nonconforming + summary.indeterminate + summary.unreadable;
    tally.held += rows;
    tally.done += rows - openRows.nonconforming - openRows.indeterminate - summary.unreadable;
    tally.nonconforming += openRows.nonconforming;
    tally.indeterminate += openRows.indeterminate;
    tally.unreadable += summary.unreadable;
  }
  return JSON.stringify(tally);
}

function wordOf(tally: Tally, hasLists: boolean): ReactNode {
  if (!hasLists) return 'none yet';
  if (tally.held === 0 && tally.waiting > 0) return 'judging';
  if (tally.nonconforming > 0) return <StateMark state="nonconforming" text={`${tally.nonconforming} nonconforming`} />;
  if (tally.unreadable > 0) return <StateMark state="unreadable" text={`${tally.unreadable} not readable`} />;
  if (tally.indeterminate > 0) return <StateMark state="indeterminate" text={`${tally.indeterminate} indeterminate`} />;
  return `${tally.held} held`;
}

/** The place of the callouts in the job line: how many are conforming or decided by a person, and what is still open. */
export function useCalloutsPlace(task: string | null, current: boolean): JobPlace {
  const { rows } = useTable('calloutLists');
  const lists = [...rows.values()].flatMap((list) => (list.task === task ? [list.id] : []));
  const desk = keptDesk();
  const tally = JSON.parse(useSyncExternalStore(desk.subscribe, () => tallyText(lists))) as Tally;
  return {
    name: 'Callouts',
    address: placeAddress({ at: 'callouts' }),
    current,
    done: tally.held === 0 ? 0 : tally.done / tally.held,
    word: wordOf(tally, lists.length > 0),
  };
}
