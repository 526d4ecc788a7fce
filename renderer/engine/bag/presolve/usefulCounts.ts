import type { Link } from '../../stack/chainStock.ts';
import type { Ways } from '../../stack/ways.ts';
import type { Counts } from '../counts.ts';
import { addedUp, mostOf } from '../counts.ts';
import type { OutingWork, StepGroup } from '../outingWork.ts';

/** Of each piece, the most that any one stack of these ways uses. */
function mostUsed({ tools, ladders }: Ways): Counts {
  const counts = new Map<string, number>(tools.map(({ id }) => [id, 1]));
  const times = new Map<Link, number>();
  for (const { rungs, chains } of ladders) {
    for (const rung of rungs) for (const { id } of rung) counts.set(id, 1);
    for (const { links } of chains) {
      for (const link of links) {
        let inThis = 0;
        for (const other of links) if (other === link) inThis += 1;
        if (inThis > (times.get(link) ?? 0)) times.set(link, inThis);
      }
    }
  }
  for (const [{ extensions }, most] of times)
    for (const { id, onHand } of extensions) counts.set(id, Math.max(counts.get(id) ?? 0, Math.min(most, onHand)));
  return counts;
}

/** Of each piece, the most that a step of each group uses at one time. Many groups have the same stacks. */
function groupMosts(groups: readonly StepGroup[]): { role: string; most: Counts }[] {
  const known = new Map<Ways, Counts>();
  const mostOfWays = (ways: Ways): Counts => {
    const found = known.get(ways) ?? mostUsed(ways);
    known.set(ways, found);
    return found;
  };
  return groups.map(({ role, ways, holds }) => ({
    role,
    most: holds ? addedUp([mostOfWays(ways), mostOfWays(holds)]) : mostOfWays(ways),
  }));
}

/**
 * Of each piece, how many can be of use in one outing: what a step uses at one time, added up over the roles where
 * they work at once or have bags of their own; and with a loss to stand, what any one step uses and as many as may be lost with it.
 */
export function usefulCounts({ groups, tolerance, bags }: OutingWork): Counts {
  const mosts = groupMosts(groups);
  const inAStep = mostOf(mosts.map(({ most }) => most));
  const apart = bags.some(({ role }) => role !== null) || groups.some(({ slot }) => slot !== null);
  const atOnce = apart ? addedUp(roleMosts(mosts)) : inAStep;
  if (tolerance === 'nothing') return atOnce;
  // A step needs n: n + 1 stand the loss of a piece. As many again, in another bag, stand the loss of a bag.
  if (tolerance === 'bag') return addedUp([atOnce, inAStep]);
  return mostOf([atOnce, new Map([...inAStep].map(([id, n]) => [id, n + 1]))]);
}

function roleMosts(mosts: readonly { role: string; most: Counts }[]): Counts[] {
  const byRole = new Map<string, Counts[]>();
  for (const { role, most } of mosts) {
    const known = byRole.get(role);
    if (known) known.push(most);
    else byRole.set(role, [most]);
  }
  return [...byRole.values()].map((counts) => mostOf(counts));
}
