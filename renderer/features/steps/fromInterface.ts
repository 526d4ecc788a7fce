import type { Interface } from '../../../shared-types/records/site.ts';
import type { TaskStep } from '../../../shared-types/records/task.ts';

/** What a step acts on once its interface has filled in what the step leaves open. */
export interface Filled {
  fastener: string | undefined;
  count: number | undefined;
  access: TaskStep['access'];
  /** Said before the step: its interface's watch-outs, then its own. */
  watchOuts: readonly string[];
  /** Fields that stand in the interface and not in the step. */
  given: ReadonlySet<'fastener' | 'count' | 'access'>;
}

export function filledFrom(
  step: Partial<Pick<TaskStep, 'action' | 'fastener' | 'count' | 'positions' | 'access' | 'watchOuts'>>,
  from: Interface | undefined,
): Filled {
  const given = new Set<'fastener' | 'count' | 'access'>();
  // As the plan is made: nothing is turned by hand, and of how many positions it is, only the step can say.
  const turns = step.action !== 'use';
  if (turns && step.fastener === undefined && from?.fastener !== undefined) given.add('fastener');
  if (step.positions === undefined && step.count === undefined && from !== undefined) given.add('count');
  if (turns && step.access === undefined && from?.access !== undefined) given.add('access');
  return {
    fastener: given.has('fastener') ? from?.fastener : step.fastener,
    count: given.has('count') ? from?.count : step.count,
    access: given.has('access') ? from?.access : step.access,
    watchOuts: [...new Set([...(from?.watchOuts ?? []), ...(step.watchOuts ?? [])])],
    given,
  };
}

/** What works an interface and is not among a step's gear: offered to steps that are done by hand or with gear. */
export function gearOffered(
  { action, gear = [] }: Partial<Pick<TaskStep, 'action' | 'gear'>>,
  at: Interface | undefined,
): NonNullable<TaskStep['gear']> {
  if (action !== 'use') return [];
  const has = new Set(gear.map(({ id }) => id));
  return (at?.gear ?? []).filter(({ id }) => !has.has(id));
}

/** An access in one line, as typed. */
export function accessText(access: NonNullable<Filled['access']>): string {
  const { depth, clearDiameter, profile = [], swingDeg, handleRadius, protrusion } = access;
  return [
    `${depth} deep`,
    ...profile.map(({ to, clearDiameter: wide }) => `⌀ ${wide} clear to ${to}`),
    ...(clearDiameter === undefined ? [] : [`⌀ ${clearDiameter} clear`]),
    ...(swingDeg === undefined ? [] : [`${swingDeg}° of swing`]),
    ...(handleRadius === undefined ? [] : [`${handleRadius} for the handle`]),
    ...(protrusion === undefined ? [] : [`${protrusion} of thread proud`]),
  ].join(', ');
}
