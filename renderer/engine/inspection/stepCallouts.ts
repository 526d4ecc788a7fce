import type { ResolvedPlan } from '../plan/resolved.ts';

/** The columns that a step of a plan says anything of. */
export const stepColumns = [
  'id',
  'thread',
  'torqueMin',
  'torqueMax',
  'strength',
  'head',
  'wrench',
  'locking',
  'runningMin',
  'runningMax',
  'runningIncluded',
  'step',
] as const;

/**
 * The callouts of a plan's tightening steps as rows of a table, texts as the plan has them. A document is named as `locking` only as the
 * plan names it; a strength of stresses stands as the text it is read from.
 *
 * @returns one row for each tightening step with a callout, in the plan's order
 */
export function stepCallouts({ source }: ResolvedPlan): Record<string, string>[] {
  const fasteners = new Map(source.catalog.fasteners?.map((fastener) => [fastener.id, fastener]));
  return source.steps.flatMap((step) => {
    const fastener = step.fastener === undefined ? undefined : fasteners.get(step.fastener);
    if (step.action !== 'tighten' || step.callout === undefined || fastener === undefined) return [];
    const { head, strength, locking, thread } = fastener;
    const isText = (value: unknown): value is string => typeof value === 'string' && value !== '';
    const cells: Record<string, unknown> = {
      id: step.id,
      thread,
      torqueMin: step.callout.min,
      torqueMax: step.callout.max,
      strength: typeof strength === 'object' ? JSON.stringify(strength) : strength,
      head: head.form,
      wrench: head.acrossFlats,
      locking,
      runningMin: step.running?.min,
      runningMax: step.running?.max,
      runningIncluded: step.runningIncluded === undefined ? undefined : step.runningIncluded ? 'yes' : 'no',
      step: 'name' in step ? step.name : undefined,
    };
    const typed = Object.entries(cells).filter((entry): entry is [string, string] => isText(entry[1]));
    return [Object.fromEntries(typed)];
  });
}
