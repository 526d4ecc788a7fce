import type { ResolvedPlan, ResolvedStep } from '../../plan/resolved.ts';

/** In the order of the outings as listed, then of the steps as listed. */
export function stepsInOrder(plan: ResolvedPlan): ResolvedStep[] {
  return plan.outings.flatMap((outing) => plan.steps.filter((step) => step.outing === outing.id));
}
