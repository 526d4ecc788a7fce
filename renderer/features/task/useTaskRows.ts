import { useMemo } from 'react';
import type { Item } from '../../../shared-types/records/item.ts';
import type { Interface, Site } from '../../../shared-types/records/site.ts';
import type { Task, TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';
import { useTable } from '../session/useStore.ts';
import { inOrder } from '../../engine/records/inOrder.ts';

/** One task with what belongs to it; or that it is still read, cannot be read, or is gone. */
export type TaskRowsState =
  | { kind: 'loading' }
  | { kind: 'fault'; reason: string }
  | { kind: 'gone' }
  | { kind: 'ready'; task: Task; steps: readonly TaskStep[]; outings: readonly TaskOuting[] };

export function useTaskRows(taskId: string): TaskRowsState {
  const tasks = useTable('tasks');
  const steps = useTable('steps');
  const outings = useTable('outings');
  return useMemo(() => {
    const fault = tasks.fault ?? steps.fault ?? outings.fault;
    if (fault !== null) return { kind: 'fault', reason: fault };
    if (!tasks.ready || !steps.ready || !outings.ready) return { kind: 'loading' };
    const task = tasks.rows.get(taskId);
    if (task === undefined) return { kind: 'gone' };
    const own = <R extends { task: string }>(rows: ReadonlyMap<string, R>): R[] =>
      [...rows.values()].filter((row) => row.task === taskId);
    return { kind: 'ready', task, steps: inOrder(own(steps.rows)), outings: inOrder(own(outings.rows)) };
  }, [taskId, tasks, steps, outings]);
}

/** What a task may draw on: the items of its shelves that are not retired, by kind; each code once. */
export function useStock(shelves: readonly string[]): readonly Item[] {
  const items = useTable('items');
  const key = shelves.join(' ');
  return useMemo(() => {
    const wanted = new Set(key.split(' '));
    const seen = new Set<string>();
    return [...items.rows.values()]
      .filter(({ shelf, retired }) => wanted.has(shelf) && !retired)
      .toSorted((a, b) => (a.code < b.code ? -1 : 1))
      .filter(({ code }) => !seen.has(code) && seen.add(code));
  }, [items, key]);
}

export interface SiteRows {
  sites: ReadonlyMap<string, Site>;
  interfaces: ReadonlyMap<string, Interface>;
}

export function useSiteRows(): SiteRows {
  const sites = useTable('sites').rows;
  const interfaces = useTable('interfaces').rows;
  return useMemo(() => ({ sites, interfaces }), [sites, interfaces]);
}
