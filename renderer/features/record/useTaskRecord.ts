import { useMemo } from 'react';
import type { Discrepancy, OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import { outingsThatLeft } from '../../engine/return/index.ts';
import type { OutingThatLeft } from '../../engine/return/index.ts';
import { useTable } from '../session/useStore.ts';
import { returnStateKept } from './keptFolds.ts';

/** Everything that was frozen of a task, done with it, and is missing of it. */
export interface TaskRecord {
  /** False until all of it is read. */
  ready: boolean;
  fault: string | null;
  revisions: readonly Revision[];
  events: readonly OutingEvent[];
  discrepancies: readonly Discrepancy[];
  /** Outings that left, by revision. */
  left: readonly OutingThatLeft[];
}

export function useTaskRecord(task: string | null): TaskRecord {
  const revisions = useTable('revisions');
  const events = useTable('events');
  const discrepancies = useTable('discrepancies');
  return useMemo(() => {
    const own = [...revisions.rows.values()].filter((one) => one.task === task).toSorted((a, b) => a.number - b.number);
    const keys = new Set(own.map(({ id }) => id));
    const done = [...events.rows.values()].filter((one) => keys.has(one.revision)).toSorted((a, b) => a.no - b.no);
    const open = [...discrepancies.rows.values()].filter((one) => one.task === task);
    return {
      ready: revisions.ready && events.ready && discrepancies.ready,
      fault: revisions.fault ?? events.fault ?? discrepancies.fault,
      ...{ revisions: own, events: done, discrepancies: open.toSorted((a, b) => a.number - b.number) },
      left: outingsThatLeft({ revisions: own, events: done }, returnStateKept),
    };
  }, [task, revisions, events, discrepancies]);
}
