import type { BagResult } from '../../../shared-types/bag.ts';
import type { ResolvedPlan, ResolvedStep } from '../../engine/plan/resolved.ts';
import { checkStack } from '../../engine/stack/checkStack.ts';
import type { StackCheck, StepJudgement } from '../../engine/stack/judged.ts';
import { holdTask, stackParts } from '../../engine/stack/stackTask.ts';

export interface HeldWith {
  stack: string[];
  checks: StackCheck[];
  planned: boolean;
}

/** What a step is held against turning with: the planned bag's own hold, before planning the catalog's lightest. */
export function heldWith(
  plan: ResolvedPlan,
  step: ResolvedStep,
  judgement: StepJudgement,
  result: BagResult | null,
): HeldWith | null {
  const planned = result?.outings.flatMap(({ steps }) => steps).find(({ id }) => id === step.id)?.hold ?? null;
  const task = holdTask(plan, step);
  const parts = planned === null ? null : stackParts(plan, planned);
  if (planned !== null && task !== null && parts !== null)
    return { stack: planned, checks: checkStack(task, parts), planned: true };
  return judgement.hold === null ? null : { ...judgement.hold, planned: false };
}
