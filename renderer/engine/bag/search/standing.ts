import type { Pieces, Supply, TableGroup } from './coverTable.ts';
import { cheapestStack, packedStacks } from './coverTable.ts';
import { isServed } from './isServed.ts';

/** A stack and its hold, of what is packed; null where there are none. */
export function servedBy({ main, hold }: TableGroup, supply: Supply): Pieces | null {
  // Most often nothing is lacking, or too much.
  if (!isServed(main, supply) || (hold && !isServed(hold, supply))) return null;
  if (!hold) {
    const found = cheapestStack(main, supply, Number.MIN_VALUE);
    return found?.pieces ?? null;
  }
  for (const stack of packedStacks(main, supply)) {
    take(supply.used, stack, 1);
    const held = cheapestStack(hold, supply, Number.MIN_VALUE);
    take(supply.used, stack, -1);
    if (held) return [...stack, ...held.pieces];
  }
  return null;
}

/** Pieces whose loss a group does not survive; null where it is not served even without one. */
export function fatalLosses(group: TableGroup, supply: Supply): number[] | null {
  const served = servedBy(group, supply);
  if (!served) return null;
  // What this stack does without may be lost: it is still there.
  return [...new Set(served)].filter((piece) => {
    if ((supply.have[piece] ?? 0) > served.filter((other) => other === piece).length + (supply.used[piece] ?? 0))
      return false;
    const left = withoutOne(supply, piece);
    return servedBy(group, left) === null;
  });
}

/** What is packed less one piece, which no new one takes the place of. */
export function withoutOne(supply: Supply, piece: number): Supply {
  const have = Int32Array.from(supply.have);
  const most = Int32Array.from(supply.most);
  have[piece] = (have[piece] ?? 0) - 1;
  most[piece] = (most[piece] ?? 0) - 1;
  return { ...supply, have, most };
}

/** So many more of each piece in use; fewer where `by` is negative. */
export function take(counts: Int32Array, pieces: Pieces, by: number): void {
  for (const piece of pieces) counts[piece] = (counts[piece] ?? 0) + by;
}
