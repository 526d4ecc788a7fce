import { atMost } from '../tolerance.ts';

/** Two names of one nominal size differ by less than this: 7/16 in is 11.1125 mm, or 11.11 mm as it is often typed. */
const nominalToleranceMm = 0.01;

/**
 * Whether two lengths are the same nominal size: within 0.01 mm.
 *
 *   |a − b| ≤ 0.01 mm, within the tolerance of every limit
 *
 * @param aMm - one length [mm]
 * @param bMm - the other [mm]
 * @returns true within the tolerance
 * @throws nothing
 * @source rule 2 of command `bag`
 * @validity names of sizes; limits are compared by `atLeast`
 * @example sameNominalMm(11.11, 11.1125) // true
 * @example sameNominalMm(27, 26.9875) // false: 27 mm is not 1-1/16 in
 */
export function sameNominalMm(aMm: number, bMm: number): boolean {
  return atMost(Math.abs(aMm - bMm), nominalToleranceMm);
}
