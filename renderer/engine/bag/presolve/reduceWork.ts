import type { Minimised } from '../../../../shared-types/bag.ts';
import type { Ways } from '../../stack/ways.ts';
import { findWays, stockOf } from '../../stack/ways.ts';
import type { Counts } from '../counts.ts';
import type { OutingWork, StepGroup } from '../outingWork.ts';
import { drawsFrom } from '../outingWork.ts';
import { dominatedPieces } from './dominated.ts';
import { withoutImplied } from './implied.ts';
import { usefulCounts } from './usefulCounts.ts';

/** What the program has to decide: the pieces that may be in a least bag, the groups that no other answers for. */
export interface ReducedWork {
  work: OutingWork;
  /** Every group, with the stacks that are left. */
  all: StepGroup[];
  /** Groups whose stacks must lie where their role can draw on them. */
  groups: StepGroup[];
  /** Groups that must stand the loss; places and slots do not matter to them. */
  standing: StepGroup[];
  /** Pieces left out. */
  dropped: ReadonlySet<string>;
  /** Of each piece, how many can be of use. */
  useful: Counts;
}

/** The work without what cannot matter: the least bag of what is left is the least bag of all. */
export function reduceWork(work: OutingWork, minimise: Minimised): ReducedWork {
  const dropped = dominatedPieces(work, minimise);
  for (const id of work.keep.keys()) dropped.delete(id);
  const stock = stockOf(work.stock, (id) => !dropped.has(id));
  const known = new Map<Ways, Ways>();
  const less = (ways: Ways): Ways => {
    const found = known.get(ways) ?? findWays(stock, ways.task);
    known.set(ways, found);
    return found;
  };
  const all = work.groups.map((group): StepGroup => {
    return { ...group, ways: less(group.ways), holds: group.holds && less(group.holds) };
  });
  // Where a role has no bag of its own, whose hand it is does not matter.
  const own = (role: string): boolean => work.bags.some((bag) => bag.role !== null && drawsFrom(bag, role));
  return {
    work,
    all,
    groups: withoutImplied(all, own),
    standing: work.tolerance === 'nothing' ? [] : withoutImplied(all.map((group) => ({ ...group, slot: null }))),
    dropped,
    useful: usefulCounts({ ...work, groups: all }),
  };
}
