import { useEffect, useMemo } from 'react';
import type { TaskStep } from '../../../shared-types/records/task.ts';
import { inOrder } from '../../engine/records/inOrder.ts';
import { keptDesk } from '../callouts/desks.ts';
import type { KnownPlaces } from '../judged/interfaceOf.ts';
import { useTable } from '../session/useStore.ts';
import { useSiteRows, useStock } from '../task/useTaskRows.ts';
import { stepCellColumns, stepsAsCallouts } from './stepCells.ts';

export interface StepsJudged {
  /** What the desk of callouts knows them as; null where no step has a torque. */
  id: string | null;
  /** What callouts and records may name. */
  known: KnownPlaces;
  ready: boolean;
}

const noShelves: readonly string[] = [];

/** Has the steps of a task judged as the callouts they are, as long as somebody looks at the findings. */
export function useStepsJudged(task: string): StepsJudged {
  const tasks = useTable('tasks');
  const steps = useTable('steps');
  const stock = useStock(tasks.rows.get(task)?.shelves ?? noShelves);
  const sites = useSiteRows();
  const own = useMemo<readonly TaskStep[]>(
    () => inOrder([...steps.rows.values()].filter((step) => step.task === task)),
    [steps.rows, task],
  );
  const rows = useMemo(() => stepsAsCallouts(own, { stock, sites }), [own, stock, sites]);
  const ready = tasks.ready && steps.ready;
  const id = rows.length === 0 ? null : `steps of ${task}`;
  useEffect(() => {
    if (!ready || id === null) return undefined;
    keptDesk().judgeKept(id, stepCellColumns, rows, null);
    return () => keptDesk().forget(id);
  }, [ready, id, rows]);
  const site = tasks.rows.get(task)?.site;
  const known = useMemo(() => ({ steps: own, interfaces: sites.interfaces, site }), [own, sites, site]);
  return { id, known, ready };
}
