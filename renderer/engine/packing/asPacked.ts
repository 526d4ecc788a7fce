import type { BagOuting, BagResult } from '../../../shared-types/bag.ts';
import { bagRefusal, newFaults } from '../bagMap/bagCheck.ts';
import { standingOf } from '../bagMap/standing.ts';
import { withBag } from '../bagMap/withBag.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';
import type { PackedLine, PackState } from './packState.ts';

interface Move {
  item: string;
  from: string;
  to: string;
  pieces: number;
}

/**
 * A new answer with its lines where they lie already, or were to lie, as far as the bags allow it: nobody packs anew what is the same.
 *
 * What is counted in comes first. All of it is tried at once, since two lines may have to change places; else line by line.
 *
 * @param plan - of the next manifest
 * @param answer - the planner's, with what was asked
 * @param found - its outing
 * @param state - how far the outing is packed
 * @returns the outing with the same pieces, in other bags
 */
export function asPacked(plan: ResolvedPlan, answer: BagResult, found: BagOuting, state: PackState): BagOuting {
  const standing = standingOf(answer);
  const outing = plan.outings.find(({ id }) => id === found.id);
  if (outing === undefined) return found;
  const lines = state.bags.flatMap((bag) => bag.lines);
  const passes = [(line: PackedLine) => line.counted.pieces, (line: PackedLine) => line.line.quantity];
  const allowed = (laid: BagOuting, move: Move): boolean => bagRefusal(plan, laid, { ...move, standing }) === null;
  const fits = (laid: BagOuting): boolean =>
    newFaults(plan, outing, { before: found, after: laid }, standing).length === 0;
  const wished = passes.reduce((laid, wanted) => moved(plan, laid, { lines, wanted, allowed: () => true }), found);
  if (fits(wished)) return wished;
  let laid = found;
  for (const wanted of passes)
    for (let before: BagOuting | null = null; before !== laid;) {
      before = laid;
      laid = moved(plan, laid, { lines, wanted, allowed });
    }
  return laid;
}

/** Every line brought nearer to so many pieces as are wanted of it; the same object where none may move. */
function moved(
  plan: ResolvedPlan,
  answer: BagOuting,
  x: {
    lines: readonly PackedLine[];
    wanted: (line: PackedLine) => number;
    allowed: (laid: BagOuting, move: Move) => boolean;
  },
): BagOuting {
  let laid = answer;
  const inBag = (item: string, bag: string): number =>
    laid.items.reduce((sum, one) => (one.id === item && one.bag === bag ? sum + one.quantity : sum), 0);
  const bagsOf = (item: string): Set<string> =>
    new Set(laid.items.flatMap(({ id, bag }) => (id === item ? [bag] : [])));
  for (const packed of x.lines) {
    const { item, bag: to } = packed.line;
    for (const from of bagsOf(item)) {
      const held = x.lines.find(({ line }) => line.item === item && line.bag === from);
      const spare = inBag(item, from) - (held === undefined ? 0 : x.wanted(held));
      const pieces = from === to ? 0 : Math.min(x.wanted(packed) - inBag(item, to), spare);
      const move = { item, from, to, pieces };
      if (pieces > 0 && x.allowed(laid, move)) laid = withBag(plan, laid, move, to);
    }
  }
  return laid;
}
