import { useMemo } from 'react';
import type { BagResult } from '../../../shared-types/bag.ts';
import type { Task, TaskStep } from '../../../shared-types/records/task.ts';
import { watchOutsOfStep } from '../../engine/watchOuts/index.ts';
import type { SaidWatchOut } from '../../engine/watchOuts/index.ts';
import { useTable } from '../session/useStore.ts';
import { tieToInterface, tieToStep } from './ties.ts';
import { partsPlanned } from './useCarried.ts';
import { writeWatchOut } from './watchOutAsking.ts';

/** The watch-outs of the step in hand, and the way to write another one that is tied to it. */
export function useStepWatchOuts(
  step: TaskStep | null,
  task: Task,
  result: BagResult | null,
): { said: SaidWatchOut[]; write: () => void } {
  const records = useTable('watchOuts').rows;
  const interfaces = useTable('interfaces').rows;
  const sites = useTable('sites').rows;
  const at = interfaces.get(step?.interface ?? '') ?? null;
  const said = useMemo(() => {
    if (step === null) return [];
    const parts = partsPlanned(result).get(step.code) ?? [];
    return watchOutsOfStep({ step, at, task, parts }, records.values());
  }, [step, at, task, result, records]);
  const write = (): void => {
    if (step === null) return;
    const tie = at === null ? tieToStep(step, new Map([[task.id, task]])) : tieToInterface(at, sites);
    writeWatchOut({ ties: [tie], learned: { in: 'task', task: task.id, words: `step ${step.code}` } });
  };
  return { said, write };
}
