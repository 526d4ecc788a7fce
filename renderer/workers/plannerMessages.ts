import type { BagResult, BagWishes, Minimised, Tolerance } from '../../shared-types/bag.ts';
import type { Refusal } from '../../shared-types/errors.ts';

/** What the page sends the planner, once. */
export interface PlannerTask {
  plan: string;
  file?: string;
  minimise: Minimised;
  tolerance?: Tolerance;
  wishes?: BagWishes;
  timeLimitS?: number;
  /** Address of the solver's program file, which the page knows. */
  solverAddress: string;
}

export interface PlannerProgress {
  outing: string;
  best: number | null;
  bound: number | null;
  elapsedS: number;
}

/** What the planner sends back: progress as it comes, then one of the other two. */
export type PlannerMessage =
  | { kind: 'progress'; progress: PlannerProgress }
  | { kind: 'result'; result: BagResult }
  | { kind: 'refused'; refusal: Refusal };
