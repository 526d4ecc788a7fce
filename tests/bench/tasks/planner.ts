/** One plan through the planner, with the clock on its progress. */
import type { Highs } from 'highs';
import { planBag } from '../../../renderer/engine/bag/planBag.ts';
import { readPlan } from '../../../renderer/engine/plan/readPlan.ts';
import type { BagResult, Minimised, Tolerance } from '../../../shared-types/bag.ts';
import type { GeneratedTask } from '../../reference/tasks/generateTask.ts';
import { processorS } from './processor.ts';

/** A point of the way: seconds since the start, and the relative gap known then. */
export interface GapAt {
  seconds: number;
  gap: number;
}

export interface Run {
  status: BagResult['status'];
  value: number | null;
  bound: number | null;
  gap: number | null;
  /** To the first answer for every outing; null where none was told of before the end. */
  firstS: number | null;
  /** What it was worth: the local search's, where that gives the first. */
  firstValue: number | null;
  totalS: number;
  /** Of the processor, which a busy machine does not stretch. */
  processorS: number;
  gaps: GapAt[];
}

export async function runPlanner(
  highs: Highs,
  { plan: source, ask }: GeneratedTask,
  options: { minimise: Minimised; tolerance: Tolerance; limitS: number; wishes: boolean },
): Promise<Run> {
  const plan = readPlan(JSON.stringify(source));
  const best = new Map<string, number>();
  const bounds = new Map<string, number>();
  const gaps: GapAt[] = [];
  let firstS: number | null = null;
  let firstValue: number | null = null;
  const { minimise, tolerance, limitS } = options;
  const before = processorS();
  const began = performance.now();
  const asked = {
    minimise,
    tolerance,
    timeLimitS: limitS,
    solver: highs,
    ...(options.wishes ? { keep: ask.keep, forbid: ask.forbid, spares: ask.spares } : {}),
    onProgress: (progress: { outing: string; best: number | null; bound: number | null }): void => {
      const seconds = (performance.now() - began) / 1000;
      if (progress.best !== null) best.set(progress.outing, progress.best);
      if (progress.bound !== null) bounds.set(progress.outing, progress.bound);
      if (best.size < plan.outings.length) return;
      const value = [...best.values()].reduce((sum, one) => sum + one, 0);
      firstS ??= seconds;
      firstValue ??= value;
      const bound = [...bounds.values()].reduce((sum, one) => sum + one, 0);
      gaps.push({ seconds, gap: value === 0 ? 0 : (value - bound) / value });
    },
  };
  const result = await planBag(plan, asked);
  const { objective } = result;
  return {
    status: result.status,
    value: objective?.value ?? null,
    bound: objective?.bound ?? null,
    gap: objective?.gap ?? null,
    firstS,
    firstValue,
    totalS: (performance.now() - began) / 1000,
    processorS: processorS() - before,
    gaps,
  };
}
