/**
 * Load a fastener bears without permanent set.
 *
 *   Fp = Sp·As
 *
 * @param x.proofMPa - Sp, stress under proof load [MPa], > 0
 * @param x.stressAreaMm2 - As, tensile stress area [mm²], > 0
 * @returns proof load [N]; the standard's tables print it to three digits
 * @throws nothing; readStrength refuses what is no strength
 * @source ISO 898-1:1999, Table 7 (read in reproductions); SAE J429 likewise
 * @validity bolts and screws that break in the thread
 * @example proofLoadN({ proofMPa: 580, stressAreaMm2: 57.99 }) // 33 634
 */
export function proofLoadN(x: { proofMPa: number; stressAreaMm2: number }): number {
  return x.proofMPa * x.stressAreaMm2;
}

/**
 * Least load at which a fastener breaks.
 *
 *   Fm = Rm·As
 *
 * @param x.ultimateMPa - Rm, tensile strength [MPa], > 0
 * @param x.stressAreaMm2 - As, tensile stress area [mm²], > 0
 * @returns minimum ultimate tensile load [N]; the standard's tables print it to three digits
 * @throws nothing; readStrength refuses what is no strength
 * @source ISO 898-1:1999, Table 6 (read in reproductions)
 * @validity bolts and screws that break in the thread
 * @example ultimateLoadN({ ultimateMPa: 800, stressAreaMm2: 57.99 }) // 46 392
 */
export function ultimateLoadN(x: { ultimateMPa: number; stressAreaMm2: number }): number {
  return x.ultimateMPa * x.stressAreaMm2;
}
