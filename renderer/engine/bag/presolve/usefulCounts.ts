import type { Ways } from '../../stack/ways.ts';
import type { Counts } from '../counts.ts';
import { addedUp, mostOf } from '../counts.ts';
import type { OutingWork, StepGroup } from '../outingWork.ts';

/** Of each piece, the most that any one stack of these ways uses. */
function mostUsed({ tools, ladders }: Ways): Counts {
  const counts = new Map<string, number>(tools.map(({ id }) => [id, 1]));
  for (const { rungs, chains } of ladders) {
    for (const { id } of rungs.flat()) counts.set(id, 1);
    for (const { links } of chains) {
      for (const link of new Set(links)) {
        const times = links.filter((other) => other === link).length;
        for (const { id, onHand } of link.extensions)
          counts.set(id, Math.max(counts.get(id) ?? 0, Math.min(times, onHand)));
      }
    }
  }
  return counts;
}

/** Of each piece, the most that a step of the group uses at one time. */
function groupMost({ ways, holds }: Pick<StepGroup, 'ways' | 'holds'>): Counts {
  return holds ? addedUp([mostUsed(ways), mostUsed(holds)]) : mostUsed(ways);
}

/**
 * Of each piece, how many can be of use in one outing: what a step uses at one time, added up over the roles where
 * they work at once or have bags of their own; and with a loss to stand, what any one step uses and as many as may be lost with it.
 */
export function usefulCounts({ groups, tolerance, bags }: OutingWork): Counts {
  const inAStep = mostOf(groups.map(groupMost));
  const apart = bags.some(({ role }) => role !== null) || groups.some(({ slot }) => slot !== null);
  const atOnce = apart ? addedUp(roleMosts(groups)) : inAStep;
  if (tolerance === 'nothing') return atOnce;
  // A step needs n: n + 1 stand the loss of a piece. As many again, in another bag, stand the loss of a bag.
  if (tolerance === 'bag') return addedUp([atOnce, inAStep]);
  return mostOf([atOnce, new Map([...inAStep].map(([id, n]) => [id, n + 1]))]);
}

function roleMosts(groups: readonly StepGroup[]): Counts[] {
  const byRole = new Map<string, Counts>();
  for (const group of groups) {
    byRole.set(group.role, mostOf([byRole.get(group.role) ?? new Map<string, number>(), groupMost(group)]));
  }
  return [...byRole.values()];
}
