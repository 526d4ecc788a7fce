import type { Interface } from '../../../shared-types/records/site.ts';
import type { TaskStep } from '../../../shared-types/records/task.ts';
import { incompletenessOf } from '../../engine/records/incompletenessOf.ts';
import type { Missing } from '../../engine/records/readableTask.ts';

/** What a step still wants before it can be judged. */
export interface Need {
  /** Path of the field in the record. */
  path: string;
  /** For the list: "needs a callout". */
  short: string;
  /** The whole of it. */
  reason: string;
}

const shortly: Readonly<Record<string, string>> = {
  fastener: 'needs a fastener',
  callout: 'needs a callout',
  demand: 'needs the torque to bear',
  running: 'needs the running torque',
};

/** By path, so that the list is short and the sheet says the whole. */
function needOf({ path, reason }: { path: string; reason: string }): Need {
  const wanted = reason.startsWith('is missing');
  const whole = wanted ? reason.replace(/^is missing:? ?/, '') : reason;
  return { path, short: (wanted ? shortly[path] : undefined) ?? whole, reason: whole };
}

/** What the reading of the task found, else what the step itself lacks; empty where nothing is. */
export function stepNeeds(step: TaskStep, at: Interface | undefined, missing: readonly Missing[]): Need[] {
  const found = missing.filter(({ table, id }) => table === 'steps' && id === step.id);
  if (found.length > 0) return found.map(needOf);
  return incompletenessOf(step, at ?? null).map(({ path, message }) => needOf({ path, reason: message }));
}
