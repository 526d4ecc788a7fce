/** The enumeration of stacks alone: its time, and what the process held at most. */
import { outingWork } from '../../../renderer/engine/bag/outingWork.ts';
import { readPlan } from '../../../renderer/engine/plan/readPlan.ts';
import type { GeneratedTask } from '../../reference/tasks/generateTask.ts';

export interface Enumerated {
  seconds: number;
  stacks: number;
}

export const peakMB = (): number => process.resourceUsage().maxRSS / 1024;

export function enumerate({ plan: source }: GeneratedTask): Enumerated {
  const plan = readPlan(JSON.stringify(source));
  const began = performance.now();
  const works = plan.outings.map((outing) => outingWork(plan, outing));
  const seconds = (performance.now() - began) / 1000;
  const stacks = works
    .flatMap(({ groups }) => groups)
    .reduce((sum, group) => sum + group.stacks.length + (group.holds?.length ?? 0), 0);
  return { seconds, stacks };
}
