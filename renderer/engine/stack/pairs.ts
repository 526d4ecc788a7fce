import type { CheckFailure, ClosestFit } from '../../../shared-types/bag.ts';
import { shownPieces } from './shown.ts';
import type { StackParts } from './stackTask.ts';
import { stackIds } from './stackTask.ts';

/** A stack that turns and one that holds at the same time. */
interface StackPair {
  stack: StackParts;
  hold: StackParts;
}

const missesShown = 3;

/** The first pair, in the order given, for which there are pieces enough. */
export function pairInStock(stacks: readonly StackParts[], holds: readonly StackParts[]): StackPair | null {
  for (const stack of stacks) {
    for (const hold of holds) {
      if (shortOf({ stack, hold }).length === 0) return { stack, hold };
    }
  }
  return null;
}

/** Pairs that lack pieces, those that lack fewest first. */
export function pairMisses(stacks: readonly StackParts[], holds: readonly StackParts[]): ClosestFit[] {
  return stacks
    .flatMap((stack) => holds.map((hold) => ({ stack: stackIds(stack), fails: shortOf({ stack, hold }) })))
    .toSorted((a, b) => a.fails.length - b.fails.length)
    .slice(0, missesShown);
}

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
