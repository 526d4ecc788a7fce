import type { BagOuting, Unchecked } from '../../../shared-types/bag.ts';
import { isWidthUnknown } from '../stack/stretches.ts';
import type { ResolvedAccess, ResolvedPlan, ResolvedStep } from '../plan/resolved.ts';

/** Rules that passed because the plan gives nothing to check: named, so that nobody takes them for checked. */
export function uncheckedRules(plan: ResolvedPlan, outings: readonly BagOuting[]): Unchecked[] {
  const turned = plan.steps.filter((step) => step.action !== 'use');
  const stepsWhere = (rule: string, missing: (access: ResolvedAccess) => boolean): Unchecked[] => {
    const steps = turned.filter((step) => accessesOf(step).some(missing)).map((step) => step.id);
    return steps.length > 0 ? [{ rule, steps }] : [];
  };
  return [
    ...stepsWhere('clearDiameter', isWidthUnknown),
    ...stepsWhere('swingDeg', (access) => access.swingDeg === null),
    ...leverless(plan, outings),
    ...sizeless(plan, outings),
  ];
}

/** A step's own access and, where it holds, that of the hold. */
function accessesOf(step: ResolvedStep): ResolvedAccess[] {
  return step.hold ? [step.access, step.hold.access] : [step.access];
}

/** Tools whose lever is not given, at steps and holds which limit it. */
function leverless(plan: ResolvedPlan, outings: readonly BagOuting[]): Unchecked[] {
  const unknown = (access: ResolvedAccess | undefined, stack: readonly string[] | null): string[] => {
    const tool = plan.tools.get(stack?.[0] ?? '');
    return tool && tool.leverMm === null && (access?.handleRadiusMm ?? null) !== null ? [tool.id] : [];
  };
  const found = outings
    .flatMap((outing) => outing.steps)
    .map(({ id, stack, hold }) => {
      const step = plan.steps.find((s) => s.id === id);
      return { id, tools: [...unknown(step?.access, stack), ...unknown(step?.hold?.access, hold)] };
    })
    .filter(({ tools }) => tools.length > 0);
  if (found.length === 0) return [];
  const items = [...new Set(found.flatMap(({ tools }) => tools))];
  return [{ rule: 'handleRadius', steps: found.map(({ id }) => id), items }];
}

/** Items of no given size in bags which limit it. */
function sizeless(plan: ResolvedPlan, outings: readonly BagOuting[]): Unchecked[] {
  const items = outings
    .flatMap((outing) => outing.items)
    .filter(({ id, bag }) => (plan.bags.get(bag)?.sizeMaxMm ?? null) !== null && plan.carried.get(id)?.sizeMm === null)
    .map(({ id }) => id);
  return items.length > 0 ? [{ rule: 'sizeMax', items: [...new Set(items)] }] : [];
}
