import { useMemo } from 'react';
import type { KeptWork } from '../../engine/records/mergeOfPlan.ts';
import { useTable } from '../session/useStore.ts';

export type KeptWorkState = { kind: 'loading' } | { kind: 'fault'; reason: string } | { kind: 'ready'; kept: KeptWork };

/** Everything a plan file may meet; or that it is still being read, or cannot be. */
export function useKeptWork(): KeptWorkState {
  const shelves = useTable('shelves');
  const items = useTable('items');
  const sites = useTable('sites');
  const interfaces = useTable('interfaces');
  const tasks = useTable('tasks');
  const outings = useTable('outings');
  const steps = useTable('steps');
  const watchOuts = useTable('watchOuts');
  return useMemo(() => {
    const all = [shelves, items, sites, interfaces, tasks, outings, steps, watchOuts];
    const reason = all.find(({ fault }) => fault !== null)?.fault;
    if (reason !== undefined && reason !== null) return { kind: 'fault', reason };
    if (all.some(({ ready }) => !ready)) return { kind: 'loading' };
    return {
      kind: 'ready',
      kept: {
        shelves: [...shelves.rows.values()],
        items: [...items.rows.values()],
        sites: [...sites.rows.values()],
        interfaces: [...interfaces.rows.values()],
        tasks: [...tasks.rows.values()],
        outings: [...outings.rows.values()],
        steps: [...steps.rows.values()],
        watchOuts: [...watchOuts.rows.values()],
      },
    };
  }, [shelves, items, sites, interfaces, tasks, outings, steps, watchOuts]);
}
