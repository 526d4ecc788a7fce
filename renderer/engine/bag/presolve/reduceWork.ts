import type { Minimised } from '../../../../shared-types/bag.ts';
import type { Ways } from '../../stack/ways.ts';
import { restrictWays } from '../../stack/ways.ts';
import type { OutingWork, StepGroup } from '../outingWork.ts';
import { drawsFrom } from '../outingWork.ts';
import { dominatedPieces } from './dominated.ts';
import { withoutImplied } from './implied.ts';

/** What the program has to decide: the pieces that may be in a least bag, the groups that no other answers for. */
export interface ReducedWork {
  work: OutingWork;
  /** Groups whose stacks must lie where their role can draw on them. */
  groups: StepGroup[];
  /** Groups that must stand the loss; places and slots do not matter to them. */
  standing: StepGroup[];
  /** Pieces left out. */
  dropped: ReadonlySet<string>;
}

/** The work without what cannot matter: the least bag of what is left is the least bag of all. */
export function reduceWork(work: OutingWork, minimise: Minimised): ReducedWork {
  const dropped = dominatedPieces(work, minimise);
  for (const id of work.keep.keys()) dropped.delete(id);
  const known = new Map<Ways, Ways>();
  const less = (ways: Ways): Ways => {
    const found = known.get(ways) ?? restrictWays(ways, (id) => !dropped.has(id));
    known.set(ways, found);
    return found;
  };
  const all = work.groups.map((group): StepGroup => {
    return { ...group, ways: less(group.ways), holds: group.holds && less(group.holds) };
  });
  // Where a role has no bag of its own, whose hand it is does not matter.
  const own = (role: string): boolean => work.bags.some((bag) => bag.role !== null && drawsFrom(bag, role));
  const inSlots = all.filter(({ slot }) => slot !== null);
  const alone = all.filter(({ slot }) => slot === null);
  const roles = [...new Set(alone.map(({ role }) => (own(role) ? role : null)))];
  const each = roles.flatMap((role) =>
    withoutImplied(alone.filter((group) => (own(group.role) ? group.role : null) === role)),
  );
  return {
    work,
    groups: [...inSlots, ...each],
    standing: work.tolerance === 'nothing' ? [] : withoutImplied(all),
    dropped,
  };
}
