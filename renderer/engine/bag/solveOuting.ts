import type { Highs } from 'highs';
import type { Minimised } from '../../../shared-types/bag.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';
import { atMost } from '../tolerance.ts';
import { figuresOf, firstAnswer } from './firstAnswer.ts';
import { leastContents } from './leastContents.ts';
import type { FirstAnswer, LeastContents } from './least.ts';
import { costsFor } from './model/costs.ts';
import type { Costs } from './model/costs.ts';
import type { OutingAnswer } from './outingAnswer.ts';
import { objectiveValue } from './outingAnswer.ts';
import { mostAsked } from './model/bagModel.ts';
import type { ReducedWork } from './presolve/reduceWork.ts';
import { progressTold } from './progressTold.ts';
import { settle } from './settle/settle.ts';

export type SolvedOuting =
  | { status: 'infeasible'; seconds: number }
  | { status: 'optimal' | 'stopped'; answer: OutingAnswer; value: number; bound: number; seconds: number };

export interface OutingOptions {
  minimise: Minimised;
  timeLimitS?: number | undefined;
  flowsMost?: number | undefined;
  onProgress?: ((progress: { best: number | null; bound: number | null }) => void) | undefined;
  /** What `beginOuting` found. */
  begun?: BegunOuting | undefined;
}

/** A good bag for an outing, before it is proven or bettered. */
export interface BegunOuting {
  costs: Costs;
  first: FirstAnswer;
}

/** The first answer of an outing, told as progress. */
export function beginOuting(plan: ResolvedPlan, reduced: ReducedWork, options: OutingOptions): BegunOuting {
  const { minimise, flowsMost, onProgress } = options;
  const costs = outingCosts(plan, reduced, minimise);
  const first = firstAnswer(plan, reduced, { costs, flowsMost });
  progressTold({ onProgress }, costs)(figuresOf(first));
  return { costs, first };
}

/**
 * The least contents of one outing's bags, with ties settled the same way every time.
 *
 * Of equally light bags the one of fewest pieces is taken, then one whose steps loosen with six points rather than
 * twelve, change stacks least often, and come first by their ids.
 *
 * @returns the answer with its bound; infeasible where there is none
 * @throws Error where the solver contradicts itself
 */
export function solveOuting(
  highs: Highs,
  plan: ResolvedPlan,
  reduced: ReducedWork,
  options: OutingOptions,
): SolvedOuting {
  const { minimise, timeLimitS, flowsMost, onProgress } = options;
  const { work } = reduced;
  const { costs, first: begun } = options.begun ?? beginOuting(plan, reduced, options);
  const first = leastContents(highs, plan, reduced, { costs, timeLimitS, flowsMost, onProgress, first: begun });
  // Out of time without any bag: whether there is one at all is asked to the end.
  const found = first.status === 'stopped' && !first.contents ? anyContents(highs, plan, reduced, costs, first) : first;
  const { status, contents, seconds } = found;
  if (status === 'infeasible') return { status, seconds };
  if (!contents) throw new Error('the solver called a program solved and gave no solution');
  const bound = costs.back(found.bound);
  const answer = settle(work, contents);
  const value = objectiveValue(answer, minimise);
  if (status === 'optimal') return { status, answer, value, bound: value, seconds };
  // Nothing lighter than the bound can be, so a bag that weighs no more than it is proven after all.
  const least = Math.min(value, bound);
  return { status: atMost(value, least) ? 'optimal' : 'stopped', answer, value, bound: least, seconds };
}

/** The costs of an outing's own pieces. */
export function outingCosts(plan: ResolvedPlan, reduced: ReducedWork, minimise: Minimised): Costs {
  const { work } = reduced;
  const asked = mostAsked(reduced);
  const items = [...plan.carried.values()].filter(
    ({ id }) => work.gear.has(id) || (asked.has(id) && !reduced.dropped.has(id)),
  );
  const most = (id: string): number => Math.max(work.gear.get(id) ?? 0, work.keep.get(id) ?? 0, asked.get(id) ?? 0);
  const pieces = items.reduce((sum, { id, onHand }) => sum + Math.min(most(id), Math.max(onHand, most(id))), 0);
  return costsFor(items, work.bags, minimise, pieces);
}

function anyContents(
  highs: Highs,
  plan: ResolvedPlan,
  reduced: ReducedWork,
  costs: Costs,
  { bound, seconds }: LeastContents,
): LeastContents {
  const any = leastContents(highs, plan, reduced, { costs, anyAnswer: true });
  if (any.status === 'infeasible') return { ...any, seconds: seconds + any.seconds };
  return { ...any, status: 'stopped', bound, seconds: seconds + any.seconds };
}
