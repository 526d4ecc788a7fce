import { useMemo } from 'react';
import type { BagResult } from '../../../shared-types/bag.ts';
import { carriedToSteps } from '../../engine/watchOuts/index.ts';
import { useTable } from '../session/useStore.ts';

/** Codes of all that an answer does each step with. */
export function partsPlanned(result: BagResult | null): Map<string, string[]> {
  const steps = result?.outings.flatMap((outing) => outing.steps) ?? [];
  return new Map(steps.map(({ id, stack, hold }) => [id, [...stack, ...(hold ?? [])]]));
}

/** What is carried to each step of a task beyond its own watch-outs and its interface's, by its code; null while it is read. */
export function useCarried(task: string, result: BagResult | null): ReadonlyMap<string, readonly string[]> | null {
  const tasks = useTable('tasks');
  const steps = useTable('steps');
  const interfaces = useTable('interfaces');
  const records = useTable('watchOuts');
  const own = tasks.rows.get(task);
  const ready = [steps, interfaces, records].every((table) => table.ready) && own !== undefined;
  return useMemo(
    () =>
      ready
        ? carriedToSteps({
            task: own,
            steps: steps.rows.values(),
            interfaces: interfaces.rows,
            records: records.rows.values(),
            parts: partsPlanned(result),
          })
        : null,
    [ready, own, steps.rows, interfaces.rows, records.rows, result],
  );
}
