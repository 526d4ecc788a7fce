import { useMemo } from 'react';
import { stepFacts } from '../../engine/cards/index.ts';
import type { ToFreeze } from '../../engine/frozen/index.ts';
import type { TaskAtHand } from '../../store/session.ts';
import { useSessionState } from '../session/SessionContext.ts';
import { useTable } from '../session/useStore.ts';
import { useSiteRows, useTaskRows } from '../task/useTaskRows.ts';
import { useCarried } from '../watchOuts/useCarried.ts';

/** The task at hand with its bag, as it would be frozen now; null while it is read. */
export function useToFreeze(atHand: TaskAtHand): ToFreeze | null {
  const { result: kept, planned } = useSessionState();
  const result = kept?.result ?? null;
  const items = useTable('items');
  const rows = useTaskRows(atHand.id);
  const { interfaces } = useSiteRows();
  const carried = useCarried(atHand.id, result);
  const steps = rows.kind === 'ready' ? rows.steps : null;
  const outings = rows.kind === 'ready' ? rows.outings : null;
  return useMemo(() => {
    if (steps === null || outings === null || carried === null || !items.ready) return null;
    const { task, text, plan, missing } = atHand;
    const laid = new Map(outings.map(({ code, bagMap = [] }) => [code, bagMap]));
    return {
      ...(planned === null ? {} : { laid: { planned: planned.result, linesOf: (outing) => laid.get(outing) ?? [] } }),
      ...{ task, text, plan, missing, result, items: [...items.rows.values()] },
      facts: stepFacts(steps, interfaces, carried),
    };
  }, [atHand, result, planned, items, steps, outings, interfaces, carried]);
}
