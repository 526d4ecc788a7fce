import type { Highs } from 'highs';
import type { Minimised } from '../../../shared-types/bag.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';
import type { BagModel } from './bagModel.ts';
import { bagModel } from './bagModel.ts';
import { solverScale } from './measure.ts';
import type { OutingAnswer } from './outingAnswer.ts';
import { objectiveValue, readAnswer } from './outingAnswer.ts';
import type { OutingWork } from './outingWork.ts';
import { settle } from './settle.ts';

export interface SolvedOuting {
  status: 'optimal' | 'stopped' | 'infeasible';
  answer: OutingAnswer | null;
  value: number;
  bound: number;
  seconds: number;
}

export interface OutingOptions {
  minimise: Minimised;
  timeLimitS?: number | undefined;
  onProgress?: ((progress: { best: number | null; bound: number | null }) => void) | undefined;
}

/** The least contents of one outing's bags, with ties settled the same way every time. */
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
  if (first.status === 'infeasible')
    return { status: 'infeasible', answer: null, value: 0, bound: 0, seconds: first.seconds };
  if (first.status === 'stopped') return stopped(highs, model, first, minimise);
  if (!first.columns) throw new Error('the solver called a program solved and gave no solution');
  const answer = settle(readAnswer(model, first.columns));
  const value = objectiveValue(answer, minimise);
  return { status: 'optimal', answer, value, bound: value, seconds: first.seconds };
}

/** Out of time: the best found, or the first that can be, with the bound proven so far. */
function stopped(
  highs: Highs,
  model: BagModel,
  first: { columns: number[] | null; bound: number; seconds: number },
  minimise: Minimised,
): SolvedOuting {
  const found = first.columns ? first : model.program.solve(highs, { firstOnly: true });
  const seconds = first.seconds + (first.columns ? 0 : found.seconds);
  if (!found.columns) return { status: 'infeasible', answer: null, value: 0, bound: 0, seconds };
  const answer = settle(readAnswer(model, found.columns));
  const value = objectiveValue(answer, minimise);
  const bound = Math.max(0, Math.min(value, first.bound / solverScale[minimise]));
  return { status: 'stopped', answer, value, bound, seconds };
}
