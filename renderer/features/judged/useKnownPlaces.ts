import { useMemo } from 'react';
import { useTable } from '../session/useStore.ts';
import type { KnownPlaces } from './interfaceOf.ts';

/** What the words of a task's rows can mean; null while it is read. */
export function useKnownPlaces(task: string): KnownPlaces | null {
  const tasks = useTable('tasks');
  const steps = useTable('steps');
  const interfaces = useTable('interfaces');
  const ready = tasks.ready && steps.ready && interfaces.ready;
  return useMemo(() => {
    if (!ready) return null;
    const own = [...steps.rows.values()].filter((step) => step.task === task);
    return { steps: own, interfaces: interfaces.rows, site: tasks.rows.get(task)?.site };
  }, [ready, task, tasks.rows, steps.rows, interfaces.rows]);
}
