/** A block's room in a bag laid open, from its upper left corner. */
export interface Spot {
  xMm: number;
  yMm: number;
  widthMm: number;
  heightMm: number;
}

export interface Taken {
  key: string;
  spot: Spot;
}

/** Why a block cannot lie somewhere: how far past which side, or how far into which other block. */
export type PlaceRefusal =
  | { kind: 'outside'; side: 'left' | 'right' | 'top' | 'bottom'; byMm: number }
  | { kind: 'taken'; key: string; byMm: number };

/** What is laid against an edge is not refused for the last digit of a sum. */
const slackMm = 0.01;

/**
 * Whether a block may lie where it is held: within the bag, and on no other.
 *
 * @param spot - where it would lie
 * @param bag - length and depth of the bag laid open [mm]
 * @param others - what lies in it already, without the block itself
 * @returns null where it may; else what is in the way, and by how much [mm]
 * @throws nothing
 * @source common practice, no source
 * @validity blocks upright on the drawing
 * @example a block 60 mm wide at 400 mm in a bag of 450 mm: past the right side by 10 mm
 */
export function placeRefusal(
  spot: Spot,
  bag: { lengthMm: number; depthMm: number },
  others: readonly Taken[],
): PlaceRefusal | null {
  const past = [
    { side: 'left' as const, byMm: -spot.xMm },
    { side: 'right' as const, byMm: spot.xMm + spot.widthMm - bag.lengthMm },
    { side: 'top' as const, byMm: -spot.yMm },
    { side: 'bottom' as const, byMm: spot.yMm + spot.heightMm - bag.depthMm },
  ].find(({ byMm }) => byMm > slackMm);
  if (past !== undefined) return { kind: 'outside', ...past };
  const meets = others
    .map(({ key, spot: other }) => ({ key, byMm: overlapMm(spot, other) }))
    .filter(({ byMm }) => byMm > slackMm)
    .toSorted((a, b) => b.byMm - a.byMm)[0];
  return meets === undefined ? null : { kind: 'taken', ...meets };
}

/** How far a block would have to go back to be clear of another: the lesser way of the two. */
function overlapMm(a: Spot, b: Spot): number {
  const across = Math.min(a.xMm + a.widthMm, b.xMm + b.widthMm) - Math.max(a.xMm, b.xMm);
  const down = Math.min(a.yMm + a.heightMm, b.yMm + b.heightMm) - Math.max(a.yMm, b.yMm);
  return Math.min(across, down);
}
