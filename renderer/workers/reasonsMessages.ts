import type { BagResult, BagWishes, Minimised, Tolerance } from '../../shared-types/bag.ts';
import type { ReasonFound, ReasonPart } from '../../shared-types/bagReasons.ts';
import type { Refusal } from '../../shared-types/errors.ts';

/** What was planned, and what is to be said of it; the same options as the planning had. */
export interface ReasonsAsked {
  plan: string;
  file?: string;
  minimise: Minimised;
  tolerance?: Tolerance;
  wishes?: BagWishes;
  /** For each question; none: each is answered to the end. */
  timeLimitS?: number;
  /** The plan's answer. */
  result: BagResult;
  /** In this order; all of them where none is named. */
  parts?: ReasonPart[];
}

/** What the page sends the worker, once. */
export interface ReasonsTask extends ReasonsAsked {
  /** Address of the solver's program file, which the page knows. */
  solverAddress: string;
}

/** What the page sends the worker as often as it likes: the line that is looked at now. */
export interface LookedAt {
  outing: string;
  id: string;
}

/** What the worker sends back: findings as they come, then one of the other two. */
export type ReasonsMessage =
  | { kind: 'found'; reason: ReasonFound }
  | { kind: 'done' }
  | { kind: 'refused'; refusal: Refusal };
