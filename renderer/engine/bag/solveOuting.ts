import type { Highs } from 'highs';
import type { Minimised } from '../../../shared-types/bag.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';
import { limitTolerance } from '../tolerance.ts';
import type { BagModel } from './bagModel.ts';
import { bagModel } from './bagModel.ts';
import { solverScale } from './measure.ts';
import type { OutingAnswer } from './outingAnswer.ts';
import { objectiveValue, readAnswer } from './outingAnswer.ts';
import type { OutingWork } from './outingWork.ts';

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

/**
 * The least contents of one outing's bags. A second run, with the least held, takes the fewest pieces among equals
 * (least mass among equal counts) and prefers six points to twelve where a step loosens, so that ties break the same way.
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
  if (first.status === 'infeasible')
    return { status: 'infeasible', answer: null, value: 0, bound: 0, seconds: first.seconds };
  if (first.status === 'stopped') return stopped(highs, model, first, minimise);
  const answer = first.columns && readAnswer(model, first.columns);
  if (!answer) throw new Error('the solver called a program solved and gave no solution');
  const value = objectiveValue(answer, minimise);
  const settled = settleTies(highs, model, minimise, value * scale) ?? answer;
  const least = objectiveValue(settled, minimise);
  return { status: 'optimal', answer: settled, value: least, bound: least, seconds: first.seconds };
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
  const answer = readAnswer(model, found.columns);
  const value = objectiveValue(answer, minimise);
  const bound = Math.max(0, Math.min(value, first.bound / solverScale[minimise]));
  return { status: 'stopped', answer, value, bound, seconds };
}

function settleTies(highs: Highs, model: BagModel, minimise: Minimised, least: number): OutingAnswer | null {
  const { program, lying, groups } = model;
  program.atMost(least * (1 + limitTolerance), program.costTerms());
  const pieces = new Map(lying.map(({ item, column }) => [column, minimise === 'count' ? item.massKg * 1000 : 1]));
  const cornered = groups.flatMap(({ group, stacks }) =>
    group.steps[0]?.action === 'loosen'
      ? stacks.filter(({ choice }) => choice.parts.socket.openingForm === 'hex12')
      : [],
  );
  // Less than half a piece in all, so that it decides only between equal numbers of pieces.
  const preference = new Map(
    cornered.map(({ column }) => [column, minimise === 'count' ? 0 : 0.5 / (groups.length + 1)]),
  );
  program.recost((column) => pieces.get(column) ?? preference.get(column) ?? 0);
  const second = program.solve(highs);
  return second.status === 'optimal' && second.columns ? readAnswer(model, second.columns) : null;
}
