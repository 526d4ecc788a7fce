import type { Chain, Link } from '../../stack/chains.ts';
import type { Ladder, Ways } from '../../stack/ways.ts';
import { turns } from '../../stack/ways.ts';
import type { StepGroup } from '../outingWork.ts';

/**
 * Groups without those that another one answers for: every stack of the other one has all the pieces of some stack of
 * theirs, so whatever bag does the other does them.
 *
 * @param groups - that draw on the same bags, one after another
 */
export function withoutImplied<T extends Pick<StepGroup, 'ways' | 'holds'>>(groups: readonly T[]): T[] {
  const kept: T[] = [];
  // What is hardest to serve comes first, so that it stands when the easier ones are looked at.
  for (const group of groups.toSorted((a, b) => choices(a) - choices(b))) {
    if (!kept.some((other) => implies(other, group))) kept.push(group);
  }
  return groups.filter((group) => kept.includes(group));
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
  const times = ({ links }: Chain, of: Link): number => links.filter((other) => other === of).length;
  return larger.links.some(
    (other) =>
      times(larger, other) >= times(smaller, link) && other.extensions.every((e) => link.extensions.includes(e)),
  );
}
