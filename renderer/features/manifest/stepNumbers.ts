import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { numbersText } from '../steps/words.ts';

/** Steps by their number in the plan, as every sheet of the window counts them. */
export interface StepNumbers {
  /** 0 where the plan has no such step. */
  of(id: string): number;
  text(ids: readonly string[]): string;
}

export function stepNumbers(plan: ResolvedPlan): StepNumbers {
  const numbers = new Map(plan.steps.map((step, index) => [step.id, index + 1]));
  const of = (id: string): number => numbers.get(id) ?? 0;
  return { of, text: (ids) => numbersText(ids.map(of)) };
}
