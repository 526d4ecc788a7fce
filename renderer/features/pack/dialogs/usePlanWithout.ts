import { useEffect, useState } from 'react';
import type { BagResult } from '../../../../shared-types/bag.ts';
import type { Frozen } from '../../../engine/frozen/index.ts';
import { withoutIt, withoutTask } from '../../../engine/packing/index.ts';
import type { PackState, Without, WithoutTask } from '../../../engine/packing/index.ts';
import { refusalOf } from '../../../store/session.ts';
import { startPlanning } from '../../../workers/planner.ts';

export type Replanned =
  | { kind: 'planning'; keepPacked: boolean }
  | { kind: 'planned'; next: Without; answer: BagResult; task: WithoutTask; keepPacked: boolean }
  | { kind: 'none'; answer: BagResult }
  | { kind: 'refused'; reason: string };

/** Longer than this nobody waits with a bag in hand; the best found by then is offered as not proven. */
const timeLimitS = 60;

/**
 * Plans an outing without what is not there: with all that is packed kept, and where that cannot be, without that.
 *
 * @param at - what was frozen and how far it is packed, as of the first look
 */
export function usePlanWithout(at: { frozen: Frozen; packing: PackState }): Replanned {
  const [{ frozen, packing }] = useState(at);
  const [replanned, setReplanned] = useState<Replanned>({ kind: 'planning', keepPacked: true });
  useEffect(() => {
    let job: ReturnType<typeof startPlanning> | null = null;
    let left = false;
    const plan = async (keepPacked: boolean): Promise<void> => {
      setReplanned({ kind: 'planning', keepPacked });
      const task = withoutTask(frozen, packing, keepPacked);
      const { tolerance, objective } = frozen.result;
      const minimise = objective?.minimised ?? 'mass';
      job = startPlanning(task.text, { minimise, tolerance, wishes: task.wishes, timeLimitS });
      const answer = await job.result;
      if (left) return;
      if (answer.status !== 'infeasible' && answer.outings.length > 0)
        setReplanned({ kind: 'planned', next: withoutIt(frozen, packing, { task, answer }), answer, task, keepPacked });
      else if (keepPacked) await plan(false);
      else setReplanned({ kind: 'none', answer });
    };
    plan(true).catch((error: unknown) => {
      if (!left) setReplanned({ kind: 'refused', reason: refusalOf(error).message });
    });
    return () => {
      left = true;
      job?.cancel();
      job?.result.catch(() => undefined);
    };
  }, [frozen, packing]);
  return replanned;
}
