/**
 * The enumeration of stacks alone, as the planner asks for it: of the pieces that some least bag may hold, none written
 * out. Its time, and what the process held at most.
 */
import { outingWork } from '../../../renderer/engine/bag/outingWork.ts';
import { reduceWork } from '../../../renderer/engine/bag/presolve/reduceWork.ts';
import { noWishes } from '../../../renderer/engine/bag/wishes.ts';
import { readPlan } from '../../../renderer/engine/plan/readPlan.ts';
import { countWays } from '../../../renderer/engine/stack/ways.ts';
import type { GeneratedTask } from '../../reference/tasks/generateTask.ts';
import { processorS } from './processor.ts';

export interface Enumerated {
  seconds: number;
  /** Of the processor. */
  processorS: number;
  stacks: number;
}

export const peakMB = (): number => process.resourceUsage().maxRSS / 1024;

export function enumerate({ plan: source }: GeneratedTask): Enumerated {
  const plan = readPlan(JSON.stringify(source));
  const before = processorS();
  const began = performance.now();
  const asked = { tolerance: 'nothing', wishes: noWishes } as const;
  const works = plan.outings.map((outing) => reduceWork(outingWork(plan, outing, asked), 'mass'));
  const seconds = (performance.now() - began) / 1000;
  const spentS = processorS() - before;
  const stacks = works
    .flatMap(({ all }) => all)
    .reduce((sum, { ways, holds }) => sum + countWays(ways) + (holds === null ? 0 : countWays(holds)), 0);
  return { seconds, processorS: spentS, stacks };
}
