import { useMemo } from 'react';
import { useTable } from '../session/useStore.ts';
import type { Touchable } from './ties.ts';

/** Everything that a watch-out may be tied to, current as long as it is shown. */
export function useTouchable(): { known: Touchable; ready: boolean; fault: string | null } {
  const interfaces = useTable('interfaces');
  const sites = useTable('sites');
  const items = useTable('items');
  const shelves = useTable('shelves');
  const steps = useTable('steps');
  const tasks = useTable('tasks');
  const all = [interfaces, sites, items, shelves, steps, tasks];
  const known = useMemo(
    () => ({
      ...{ interfaces: interfaces.rows, sites: sites.rows, items: items.rows },
      ...{ shelves: shelves.rows, steps: steps.rows, tasks: tasks.rows },
    }),
    [interfaces.rows, sites.rows, items.rows, shelves.rows, steps.rows, tasks.rows],
  );
  return {
    known,
    ready: all.every(({ ready }) => ready),
    fault: all.find(({ fault }) => fault !== null)?.fault ?? null,
  };
}
