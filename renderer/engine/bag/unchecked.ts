import type { BagOuting, Unchecked } from '../../../shared-types/bag.ts';
import type { ResolvedPlan, ResolvedStep } from '../plan/resolved.ts';

/** Rules that passed because the plan gives nothing to check: named, so that nobody takes them for checked. */
export function uncheckedRules(plan: ResolvedPlan, outings: readonly BagOuting[]): Unchecked[] {
  const turned = plan.steps.filter((step) => step.action !== 'use');
  const reached = turned.filter((step) => step.access.depthMm > 0);
  const stepsWithout = (
    rule: string,
    steps: readonly ResolvedStep[],
    given: (step: ResolvedStep) => boolean,
  ): Unchecked[] => {
    const missing = steps.filter((step) => !given(step)).map((step) => step.id);
    return missing.length > 0 ? [{ rule, steps: missing }] : [];
  };
  return [
    ...stepsWithout('clearDiameter', reached, (step) => step.access.clearDiameterMm !== null),
    ...stepsWithout('swingDeg', turned, (step) => step.access.swingDeg !== null),
    ...leverless(plan, outings),
    ...sizeless(plan, outings),
  ];
}

/** Tools whose lever is not given, at steps which limit it. */
function leverless(plan: ResolvedPlan, outings: readonly BagOuting[]): Unchecked[] {
  const steps = outings
    .flatMap((outing) => outing.steps)
    .filter(({ id, stack }) => {
      const step = plan.steps.find((s) => s.id === id);
      return (step?.access.handleRadiusMm ?? null) !== null && plan.tools.get(stack[0] ?? '')?.leverMm === null;
    });
  if (steps.length === 0) return [];
  const items = [...new Set(steps.flatMap(({ stack }) => stack[0] ?? []))];
  return [{ rule: 'handleRadius', steps: steps.map(({ id }) => id), items }];
}

/** Items of no given size in bags which limit it. */
function sizeless(plan: ResolvedPlan, outings: readonly BagOuting[]): Unchecked[] {
  const items = outings
    .flatMap((outing) => outing.items)
    .filter(({ id, bag }) => (plan.bags.get(bag)?.sizeMaxMm ?? null) !== null && plan.carried.get(id)?.sizeMm === null)
    .map(({ id }) => id);
  return items.length > 0 ? [{ rule: 'sizeMax', items: [...new Set(items)] }] : [];
}
