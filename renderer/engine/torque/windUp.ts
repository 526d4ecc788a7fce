/** A part that twists under the torque it passes on. */
export interface TwistingPart {
  lengthMm: number;
  shearModulusMPa: number;
  polarMomentMm4: number;
}

/**
 * How far one part twists.
 *
 *   φ = T·L/(G·J)
 *
 * @param x.torqueNm - T [N·m], ≥ 0
 * @param x.part - L [mm], > 0; G [MPa], > 0; J [mm⁴], > 0
 * @returns φ [deg]; of a string of parts, the sum of theirs
 * @throws nothing
 * @source torsion of a prismatic bar, textbook form
 * @validity elastic; J is the polar moment of a round section, or the section's own torsion constant
 * @example 100 N·m on 250 mm of a round bar of 12 mm, G 79300 MPa: 8.873°
 */
export function twistDeg({ torqueNm, part }: { torqueNm: number; part: TwistingPart }): number {
  const radians = (torqueNm * 1000 * part.lengthMm) / (part.shearModulusMPa * part.polarMomentMm4);
  return (radians * 180) / Math.PI;
}

/**
 * Polar moment of a round section, solid or hollow.
 *
 *   J = π/32·(D⁴ − d⁴)
 *
 * @param x.outsideMm - D [mm], > 0
 * @param x.insideMm - d [mm], 0 ≤ d < D
 * @returns J [mm⁴]
 * @throws nothing
 * @source geometry
 * @validity round sections
 * @example polarMomentMm4({ outsideMm: 12, insideMm: 0 }) // 2035.75
 */
export function polarMomentMm4({ outsideMm, insideMm }: { outsideMm: number; insideMm: number }): number {
  return (Math.PI / 32) * (outsideMm ** 4 - insideMm ** 4);
}
