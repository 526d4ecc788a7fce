import type { Plan } from '../../../shared-types/plan.ts';
import type { FileToSave } from '../../../shared-types/host.ts';
import { safeFileName } from '../../../shared-types/fileName.ts';
import { planWithCarried } from '../../engine/watchOuts/index.ts';
import { textOfPlan } from '../../engine/records/textOfPlan.ts';

/** A task as a plan file: what the planner reads of it, in lines a person can follow, with the watch-outs carried to its steps. */
export function planFile(
  task: { name: string; text: string },
  carried: ReadonlyMap<string, readonly string[]> = new Map(),
): FileToSave {
  const plan = planWithCarried(JSON.parse(task.text) as Plan, carried);
  return {
    name: safeFileName(task.name, 'task.json'),
    mediaType: 'application/json',
    bytes: new TextEncoder().encode(textOfPlan(plan, { forPeople: true })),
  };
}
