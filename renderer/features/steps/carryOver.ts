import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { StepJudgement } from '../../engine/stack/judged.ts';

const stockTexts = new WeakMap<ResolvedPlan, string>();

/** Everything of a plan, besides the step itself, that a judgement rests on. */
function stockText(plan: ResolvedPlan): string {
  const known = stockTexts.get(plan);
  if (known !== undefined) return known;
  const { fasteners, sockets, extensions, drivers, torqueTools } = plan.source.catalog;
  const text = JSON.stringify([plan.rangeShareMin, fasteners, sockets, extensions, drivers, torqueTools]);
  stockTexts.set(plan, text);
  return text;
}

/**
 * What was judged of an earlier state of a plan and still holds: a step's judgement follows from the step and the stock
 * alone, so that changing one step costs one judgement.
 */
export function carriedOver(
  from: { plan: ResolvedPlan; held: ReadonlyMap<string, StepJudgement> },
  plan: ResolvedPlan,
): Map<string, StepJudgement> {
  const carried = new Map<string, StepJudgement>();
  if (from.held.size === 0 || stockText(from.plan) !== stockText(plan)) return carried;
  const before = new Map(from.plan.source.steps.map((step) => [step.id, step]));
  for (const step of plan.source.steps) {
    const judged = from.held.get(step.id);
    const known = before.get(step.id);
    if (judged === undefined || known === undefined) continue;
    if (known === step || JSON.stringify(known) === JSON.stringify(step)) carried.set(step.id, judged);
  }
  return carried;
}
