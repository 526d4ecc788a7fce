import type { TaskStep } from '../../../shared-types/records/task.ts';
import { inOrder } from '../../engine/records/inOrder.ts';
import type { Act, Proposal } from '../../store/store.ts';
import { firstCode, freshCode } from '../task/freshCode.ts';
import { addStep } from './stepActs.ts';
import type { TaskRows } from './stepActs.ts';

/** A step that has no place and no code yet. */
export type NewStep = Omit<TaskStep, 'id' | 'rev' | 'task' | 'position' | 'code'>;

/**
 * Codes for new steps, each as no other step of the task has it.
 *
 * @param like - code that they are counted on from; null where the task has none yet
 */
export function freshCodes(rows: TaskRows, like: string | null, count: number): string[] {
  const taken = new Set(rows.steps.map(({ code }) => code));
  let last = like;
  return Array.from({ length: count }, () => {
    last = last === null ? firstCode('s', taken) : freshCode(last, taken);
    taken.add(last);
    return last;
  });
}

/**
 * Adds steps one after another in one act.
 *
 * @param after - key of the step that the first of them stands after; null: each at the end of its outing
 */
export function addSteps(rows: TaskRows, steps: readonly TaskStep[], after: string | null, title: string): Act {
  const changed = new Map<string, TaskStep>();
  let now = rows;
  let last = after;
  for (const step of steps) {
    const all = new Map(now.steps.map((row) => [row.id, row]));
    for (const one of addStep(now, step, last).proposals)
      if ('put' in one && one.table === 'steps') {
        changed.set(one.put.id, one.put);
        all.set(one.put.id, one.put);
      }
    now = { outings: rows.outings, steps: inOrder([...all.values()]) };
    // What is done if a step fails stands under it, wherever the hand is.
    if (step.contingency !== true && after !== null) last = step.id;
  }
  return {
    action: 'add-steps',
    title: title.length > 190 ? `${title.slice(0, 189)}…` : title,
    proposals: [...changed.values()].map((put): Proposal => ({ table: 'steps', put })),
  };
}
