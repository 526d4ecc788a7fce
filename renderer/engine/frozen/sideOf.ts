import type { Side } from './compareRevisions.ts';
import { freeze, whyNotFrozen } from './freeze.ts';
import type { ToFreeze } from './freeze.ts';

/**
 * A task as it stands, to be held against a frozen manifest; without lines, things and stacks where it cannot be frozen.
 *
 * @param state - the task as it stands
 * @returns the same as it would be read from a manifest frozen now
 * @throws RefusedError where its bag names what the catalog does not have
 */
export function sideOf(state: ToFreeze): Side {
  const { plan, result, facts } = state;
  if (result === null || whyNotFrozen(state) !== null) return { plan, result: null, things: [], lines: [], facts };
  const { things, lines, places = [] } = freeze(state);
  return { plan, result, things, lines, places, facts };
}
