import { useCallback, useMemo } from 'react';
import type { OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import { useStore, useTable } from '../session/useStore.ts';
import { appendEvents } from './appendEvents.ts';
import type { ToAppend } from './appendEvents.ts';

export interface KeptRows<R> {
  /** False until they are read. */
  ready: boolean;
  fault: string | null;
  rows: readonly R[];
}

/** The frozen manifests of a task, the newest last. */
export function useRevisions(task: string): KeptRows<Revision> {
  const { ready, fault, rows } = useTable('revisions');
  return useMemo(
    () => ({
      ...{ ready, fault },
      rows: [...rows.values()].filter((one) => one.task === task).toSorted((a, b) => a.number - b.number),
    }),
    [ready, fault, rows, task],
  );
}

/** What was done with a revision, in the order of its numbers; of none where none is named. */
export function useEvents(revision: string | null): KeptRows<OutingEvent> {
  const { ready, fault, rows } = useTable('events');
  return useMemo(
    () => ({
      ...{ ready, fault },
      rows: [...rows.values()].filter((one) => one.revision === revision).toSorted((a, b) => a.no - b.no),
    }),
    [ready, fault, rows, revision],
  );
}

/** Chains what was done to what is there, and keeps it. See `appendEvents`. */
export function useAppendEvents(): (revision: Pick<Revision, 'id' | 'hash'>, what: ToAppend) => Promise<OutingEvent[]> {
  const store = useStore();
  return useCallback((revision, what) => appendEvents(store, revision, what), [store]);
}
