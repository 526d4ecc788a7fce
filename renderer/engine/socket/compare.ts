/** Two names of one nominal size differ by less than this: 7/16 in is 11.1125 mm, or 11.11 mm as it is often typed. */
const nominalToleranceMm = 0.01;

/** Every comparison of limits carries this much of the greater value, so that 1.257 in · 25.4 decides no fit. */
const relativeTolerance = 1e-9;

/**
 * Whether two lengths are the same nominal size: within 0.01 mm.
 *
 *   |a − b| ≤ 0.01 mm + 1e-9·max(|a|, |b|)
 *
 * @param aMm - one length [mm]
 * @param bMm - the other [mm]
 * @returns true within the tolerance
 * @throws nothing
 * @source rule 2 of command `bag`
 * @validity names of sizes; limits are compared by `reaches`
 * @example sameNominalMm(11.11, 11.1125) // true
 * @example sameNominalMm(27, 26.9875) // false: 27 mm is not 1-1/16 in
 */
export function sameNominalMm(aMm: number, bMm: number): boolean {
  return Math.abs(aMm - bMm) <= nominalToleranceMm + relativeTolerance * Math.max(Math.abs(aMm), Math.abs(bMm));
}

/** a ≥ b, equal counting as reached. */
export function reaches(a: number, b: number): boolean {
  return a >= b - relativeTolerance * Math.max(Math.abs(a), Math.abs(b));
}
