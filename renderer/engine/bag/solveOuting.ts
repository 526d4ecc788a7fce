import type { Highs } from 'highs';
import type { Minimised } from '../../../shared-types/bag.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';
import { atMost } from '../tolerance.ts';
import type { BagModel } from './bagModel.ts';
import { bagModel } from './bagModel.ts';
import type { Solution } from './integerProgram.ts';
import type { Counts } from './counts.ts';
import { carriedItem, measured, solverScale } from './measure.ts';
import type { OutingAnswer } from './outingAnswer.ts';
import { objectiveValue, readAnswer } from './outingAnswer.ts';
import type { Choice, OutingWork } from './outingWork.ts';
import { settle } from './settle.ts';

export type SolvedOuting =
  | { status: 'infeasible'; seconds: number }
  | { status: 'optimal' | 'stopped'; answer: OutingAnswer; value: number; bound: number; seconds: number };

export interface OutingOptions {
  minimise: Minimised;
  timeLimitS?: number | undefined;
  onProgress?: ((progress: { best: number | null; bound: number | null }) => void) | undefined;
}

/**
 * The least contents of one outing's bags, with ties settled the same way every time.
 *
 * @throws Error where the solver contradicts itself
 */
export function solveOuting(highs: Highs, plan: ResolvedPlan, work: OutingWork, options: OutingOptions): SolvedOuting {
  const { minimise, timeLimitS } = options;
  const scale = solverScale[minimise];
  const model = bagModel(plan, work, minimise);
  const onProgress =
    options.onProgress &&
    (({ best, bound }: { best: number | null; bound: number | null }) =>
      options.onProgress?.({
        best: best === null ? null : best / scale,
        bound: bound === null ? null : bound / scale,
      }));
  const first = model.program.solve(highs, { timeLimitS, onProgress });
  if (first.status === 'infeasible') return { status: 'infeasible', seconds: first.seconds };
  if (first.status === 'stopped') return stopped(highs, plan, work, { model, ...first }, options);
  if (!first.columns) throw new Error('the solver called a program solved and gave no solution');
  const answer = settle(readAnswer(model, first.columns));
  const value = objectiveValue(answer, minimise);
  return { status: 'optimal', answer, value, bound: value, seconds: first.seconds };
}

/** Out of time: the best found, or the first that can be, with the bound proven so far. */
function stopped(
  highs: Highs,
  plan: ResolvedPlan,
  work: OutingWork,
  first: Solved,
  { minimise, timeLimitS }: OutingOptions,
): SolvedOuting {
  const tries = first.columns ? [first] : [first, ...anyBag(highs, plan, work, { minimise, timeLimitS })];
  const seconds = tries.map((one) => one.seconds).reduce((sum, one) => sum + one);
  const found = tries.find(({ columns }) => columns !== null);
  if (!found?.columns) return { status: 'infeasible', seconds };
  const answer = settle(readAnswer(found.model, found.columns));
  const value = objectiveValue(answer, minimise);
  const proven = Math.max(first.bound / solverScale[minimise], leastOfAnyStep(plan, work, minimise));
  const bound = Math.min(value, proven);
  // Nothing lighter than the bound can be, so a bag that weighs no more than it is proven after all.
  return { status: atMost(value, bound) ? 'optimal' : 'stopped', answer, value, bound, seconds };
}

/** A solution with the model it belongs to. */
interface Solved extends Solution {
  model: BagModel;
}

/** Few enough stacks a step that a first bag comes at once. */
const stacksTried = 6;

/** Tries for a first bag: from each step's lightest stacks; where those do not go together, from all of them. */
function anyBag(highs: Highs, plan: ResolvedPlan, work: OutingWork, { minimise, timeLimitS }: OutingOptions): Solved[] {
  const groups = work.groups.map((group) => {
    return {
      ...group,
      stacks: group.stacks.slice(0, stacksTried),
      holds: group.holds && group.holds.slice(0, stacksTried),
    };
  });
  const few = bagModel(plan, { ...work, groups }, minimise);
  const quick = { model: few, ...few.program.solve(highs, { timeLimitS }) };
  if (quick.columns) return [quick];
  const model = bagModel(plan, work, minimise);
  return [quick, { model, ...model.program.solve(highs, { firstOnly: true }) }];
}

/** No bag holds less than its gear and the least that its most demanding step takes. */
function leastOfAnyStep(plan: ResolvedPlan, work: OutingWork, minimise: Minimised): number {
  const amount = (counts: Counts): number =>
    [...counts].reduce((sum, [id, count]) => sum + measured(carriedItem(plan.carried, id), minimise) * count, 0);
  const least = (choices: readonly Choice[] | null): number =>
    choices === null ? 0 : Math.min(...choices.map(({ counts }) => amount(counts)));
  return amount(work.gear) + Math.max(0, ...work.groups.map(({ stacks, holds }) => least(stacks) + least(holds)));
}
