import type { Item } from '../../../shared-types/records/item.ts';
import type { TaskStep } from '../../../shared-types/records/task.ts';
import { filledFrom } from '../steps/fromInterface.ts';
import { stepName } from '../steps/stepTexts.ts';
import type { SiteRows } from '../task/useTaskRows.ts';

/** The columns of steps as callouts. No rule reads the last: what a step is called. */
export const stepCellColumns = [
  ...['id', 'thread', 'torqueMin', 'torqueMax', 'strength', 'head', 'wrench', 'locking'],
  ...['runningMin', 'runningMax', 'runningIncluded', 'lubrication', 'step'],
];

export interface StepAsCallout {
  /** Key of the step. */
  key: string;
  cells: Record<string, string>;
}

/**
 * Every tightening step with a torque as the callout it is: its fastener's thread, strength, head and locking document, its own band and
 * running torque, and the condition that the torque was taken with. What the planner still lacks of it does not matter here.
 *
 * @param steps - of one task, in order
 */
export function stepsAsCallouts(
  steps: readonly TaskStep[],
  { stock, sites }: { stock: readonly Item[]; sites: Pick<SiteRows, 'interfaces'> },
): StepAsCallout[] {
  const fasteners = new Map(stock.flatMap((item) => (item.kind === 'fastener' ? [[item.code, item] as const] : [])));
  return steps.flatMap((step, at): StepAsCallout[] => {
    const { action, callout, running, runningIncluded, calloutFrom } = step;
    if (action !== 'tighten' || callout === undefined) return [];
    const { fastener } = filledFrom(step, sites.interfaces.get(step.interface ?? ''));
    const of = fasteners.get(fastener ?? '');
    const cells: Record<string, unknown> = {
      id: step.code,
      thread: of?.thread,
      torqueMin: callout.min,
      torqueMax: callout.max,
      strength: typeof of?.strength === 'object' ? JSON.stringify(of.strength) : of?.strength,
      head: of?.head.form,
      wrench: of?.head.acrossFlats,
      locking: of?.locking,
      runningMin: running?.min,
      runningMax: running?.max,
      runningIncluded: runningIncluded === undefined ? undefined : runningIncluded ? 'yes' : 'no',
      lubrication: calloutFrom?.condition,
      step: `${at + 1} · ${stepName(step)}`,
    };
    const typed = Object.entries(cells).filter(
      (one): one is [string, string] => typeof one[1] === 'string' && one[1] !== '',
    );
    return [{ key: step.id, cells: Object.fromEntries(typed) }];
  });
}
