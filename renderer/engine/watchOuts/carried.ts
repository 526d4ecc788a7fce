import type { Interface } from '../../../shared-types/records/site.ts';
import type { Task, TaskStep } from '../../../shared-types/records/task.ts';
import type { WatchOut } from '../../../shared-types/records/watchOut.ts';
import { watchOutsOfStep } from './said.ts';

export interface CarriedTo {
  task: Pick<Task, 'id' | 'shelves'>;
  /** Of this task; others are passed over. */
  steps: Iterable<TaskStep>;
  interfaces: ReadonlyMap<string, Interface>;
  records: Iterable<WatchOut>;
  /** By the step's code: codes of its planned stack and of what holds against it. */
  parts?: ReadonlyMap<string, readonly string[]>;
}

/**
 * What is carried to each step of a task: the texts of the records tied to what it touches, beyond the lists of its interface and its own.
 *
 * @returns by the step's code; a step to which nothing is carried is not in it
 */
export function carriedToSteps({ task, steps, interfaces, records, parts }: CarriedTo): Map<string, string[]> {
  const all = [...records];
  const carried = new Map<string, string[]>();
  for (const step of steps) {
    if (step.task !== task.id) continue;
    const at = interfaces.get(step.interface ?? '') ?? null;
    const planned = parts?.get(step.code);
    const said = watchOutsOfStep({ step, at, task, ...(planned === undefined ? {} : { parts: planned }) }, all);
    const texts = said.flatMap(({ text, from }) => (from.kind === 'record' ? [text] : []));
    if (texts.length > 0) carried.set(step.code, texts);
  }
  return carried;
}
