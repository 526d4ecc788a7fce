import type { CheckFailure, ClosestFit } from '../../../shared-types/bag.ts';
import { lightestStacks } from './lightest.ts';
import { shownPieces } from './shown.ts';
import type { StackParts } from './stackTask.ts';
import { stackIds } from './stackTask.ts';
import type { Ways } from './ways.ts';
import { partsOf, restrictWays } from './ways.ts';

/** A stack that turns and one that holds at the same time. */
interface StackPair {
  stack: StackParts;
  hold: StackParts;
}

const missesShown = 3;

/** How many of the lightest are looked at first: nearly always the first pair is there. */
const looks = [8, 64, Infinity];

/** The first pair for which there are pieces enough: of the lightest stack that has any hold beside it, the lightest. */
export function pairInStock(ways: Ways, holds: Ways): StackPair | null {
  let seen = 0;
  for (const look of looks) {
    const stacks = lightestStacks(ways, look);
    for (const stack of stacks.slice(seen)) {
      const hold = holdBeside(holds, stack);
      if (hold) return { stack, hold };
    }
    seen = stacks.length;
  }
  return null;
}

function holdBeside(holds: Ways, stack: StackParts): StackParts | null {
  const taken = stackIds(stack);
  const onHand = new Map(partsOf(holds).map((part) => [part.id, part.onHand]));
  const left = restrictWays(holds, (id) => (onHand.get(id) ?? 0) > taken.filter((other) => other === id).length);
  for (const look of looks) {
    const found = lightestStacks(left, look).find((hold) => shortOf({ stack, hold }).length === 0);
    if (found) return found;
  }
  return null;
}

/** Pairs that lack pieces, those that lack fewest first. */
export function pairMisses(ways: Ways, holds: Ways): ClosestFit[] {
  const near = lightestStacks(holds, missesLooked);
  return lightestStacks(ways, missesLooked)
    .flatMap((stack) => near.map((hold) => ({ stack: stackIds(stack), fails: shortOf({ stack, hold }) })))
    .toSorted((a, b) => a.fails.length - b.fails.length)
    .slice(0, missesShown);
}

const missesLooked = 64;

/** Rule 12: a hold has its own pieces, so what both use must be there twice. */
function shortOf({ stack, hold }: StackPair): CheckFailure[] {
  const pieces = [stack, hold].flatMap((parts) => [parts.tool, ...parts.extensions, parts.socket]);
  return [...new Set(pieces)].flatMap((piece): CheckFailure[] => {
    const need = pieces.filter((other) => other === piece).length;
    if (need <= piece.onHand) return [];
    return [
      {
        check: 'stock',
        have: `${shownPieces(piece.onHand)} of ${piece.id} on hand`,
        need: `${shownPieces(need)} at once`,
      },
    ];
  });
}
