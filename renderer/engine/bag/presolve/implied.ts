import type { Chain } from '../../stack/chains.ts';
import type { Link } from '../../stack/chainStock.ts';
import type { Ladder, Ways } from '../../stack/ways.ts';
import { turns } from '../../stack/ways.ts';
import type { StepGroup } from '../outingWork.ts';
import { atOneTime } from '../outingWork.ts';

/**
 * Groups without those that others answer for. One group answers for another where every stack of it has all the pieces
 * of some stack of the other. Groups of one slot work at the same time: they answer for others that do, or for one by
 * itself, where each of the others' roles is answered for by a role of its own.
 *
 * @param groups - that draw on the same bags
 * @param hasOwnBags - whose hand such a role's step is matters
 */
export function withoutImplied<T extends StepGroup>(
  groups: readonly T[],
  hasOwnBags: (role: string) => boolean = () => false,
): T[] {
  const units = atOneTime(groups).map((together) => ({
    together,
    choices: together.reduce((least, group) => Math.min(least, choices(group)), Infinity),
  }));
  const kept: StepGroup[][] = [];
  // What works at once and what is hardest to serve comes first, so that it stands when the easier ones are looked at.
  const order = units.toSorted(
    (a, b) => rolesOf(b.together).length - rolesOf(a.together).length || a.choices - b.choices,
  );
  for (const { together } of order) {
    if (!kept.some((other) => answersFor(other, together, hasOwnBags))) kept.push(together);
  }
  const all = new Set(kept.flat());
  return groups.filter((group) => all.has(group));
}

/** Whether roles of the one answer, each for another role, for those of the other. */
function answersFor(a: readonly StepGroup[], b: readonly StepGroup[], hasOwnBags: (role: string) => boolean): boolean {
  const [ours, theirs] = [rolesOf(a), rolesOf(b)];
  const stands = (role: string, other: string): boolean =>
    (role === other || (!hasOwnBags(role) && !hasOwnBags(other))) &&
    b
      .filter((group) => group.role === other)
      .every((group) => a.some((one) => one.role === role && implies(one, group)));
  const match = (index: number, taken: readonly string[]): boolean => {
    const other = theirs[index];
    if (other === undefined) return true;
    return ours.some((role) => !taken.includes(role) && stands(role, other) && match(index + 1, [...taken, role]));
  };
  return match(0, []);
}

function rolesOf(groups: readonly StepGroup[]): string[] {
  return [...new Set(groups.map(({ role }) => role))];
}

function choices({ ways, holds }: Pick<StepGroup, 'ways' | 'holds'>): number {
  const size = (one: Ways): number =>
    one.tools.length + one.ladders.reduce((sum, { rungs, chains }) => sum + rungs.flat().length * chains.length, 0);
  return size(ways) + (holds ? size(holds) - 1e6 : 0);
}

function implies(a: Pick<StepGroup, 'ways' | 'holds'>, b: Pick<StepGroup, 'ways' | 'holds'>): boolean {
  if (!waysImply(a.ways, b.ways)) return false;
  return b.holds === null || (a.holds !== null && waysImply(a.holds, b.holds));
}

function waysImply(a: Ways, b: Ways): boolean {
  if (a === b) return true;
  if (!a.tools.every((tool) => b.tools.includes(tool))) return false;
  const place = new Map(
    b.ladders.flatMap((ladder) =>
      ladder.rungs.flatMap((rung, index) => rung.map(({ id }) => [id, { ladder, index }] as const)),
    ),
  );
  return a.ladders.every((ladder) =>
    ladder.rungs.every((rung, index) => {
      const places = rung.map(({ id }) => place.get(id));
      if (places.includes(undefined)) return false;
      const lowest = new Map<Ladder, number>();
      for (const at of places) if (at) lowest.set(at.ladder, Math.min(at.index, lowest.get(at.ladder) ?? Infinity));
      const chains = ladder.chains.filter(({ from, until }) => from <= index && index < until);
      return [...lowest].every(([other, least]) =>
        chains.every((chain) => chainImplied({ ways: a, ladder, chain }, { ways: b, ladder: other, index: least })),
      );
    }),
  );
}

function chainImplied(
  a: { ways: Ways; ladder: Ladder; chain: Chain },
  b: { ways: Ways; ladder: Ladder; index: number },
): boolean {
  const smaller = b.ladder.chains.find(
    (chain) =>
      chain.driveMm === a.chain.driveMm &&
      chain.from <= b.index &&
      chain.links.every((link) => answers(a.chain, chain, link)),
  );
  if (!smaller) return false;
  return a.ways.tools
    .filter((tool) => turns(a.ways.task, tool, a.ladder, a.chain))
    .every((tool) => turns(b.ways.task, tool, b.ladder, smaller));
}

/** Whether whatever is picked for the larger chain has a piece for this link of the smaller one. */
function answers(larger: Chain, smaller: Chain, link: Link): boolean {
  const asked = timesIn(smaller, link);
  return larger.links.some((other) => timesIn(larger, other) >= asked && isWithin(other, link));
}

function timesIn({ links }: Chain, link: Link): number {
  let times = 0;
  for (const other of links) if (other === link) times += 1;
  return times;
}

function isWithin(one: Link, other: Link): boolean {
  return one === other || one.extensions.every((extension) => other.extensions.includes(extension));
}
