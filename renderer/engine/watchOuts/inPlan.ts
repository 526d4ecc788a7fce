import type { Plan } from '../../../shared-types/plan.ts';
import type { TaskStep } from '../../../shared-types/records/task.ts';

type Carried = ReadonlyMap<string, readonly string[]>;

/**
 * A plan with what is carried to its steps among their watch-outs: as a file says it, which has no records for them.
 *
 * @param carried - by the step's code, as `carriedToSteps` gives it
 * @returns the plan; the same one where nothing is carried
 */
export function planWithCarried(plan: Plan, carried: Carried): Plan {
  if (carried.size === 0) return plan;
  const steps = plan.steps.map((step) => {
    const more = carried.get(step.id) ?? [];
    return more.length === 0 ? step : { ...step, watchOuts: [...new Set([...(step.watchOuts ?? []), ...more])] };
  });
  return { ...plan, steps };
}

/**
 * A step that came with a file without what is carried to it here anyway: those words are kept with their records, and would be said of the
 * step as well. Words that the step kept here has of its own stay.
 *
 * @param step - as the file has it
 * @param carried - what is carried to the step of its code
 * @param own - what the step kept here and its interface say of their own
 * @returns the step; the same one where nothing of it is carried
 */
export function withoutCarried(step: TaskStep, carried: readonly string[], own: readonly string[]): TaskStep {
  const { watchOuts, ...rest } = step;
  if (watchOuts === undefined) return step;
  const left = watchOuts.filter((text) => own.includes(text) || !carried.includes(text));
  if (left.length === watchOuts.length) return step;
  return left.length === 0 ? rest : { ...rest, watchOuts: left };
}
