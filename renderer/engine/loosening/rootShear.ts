import { demand } from '../preload/formula/demand.ts';

/**
 * Torque at which the root of a seated, stretched thread shears.
 *
 *   π/16·d3³·(Sy/√3)·√(1 − (F/(A3·Sy))²),  A3 = π·d3²/4
 *
 * @param x.rootDiameterMm - d3, root of the external thread [mm], > 0
 * @param x.yieldMPa - Sy [MPa], > 0
 * @param x.preloadN - F, the greatest preload [N], 0 ≤ F ≤ A3·Sy
 * @returns torque the shank carries when the root's rim yields [N·m]; 0 at a preload that yields the root by itself
 * @throws RefusedError out-of-range where F is above A3·Sy: the root has yielded before any torque; not-finite
 * @source distortion energy (σ² + 3τ² = Sy²) with elastic torsion, as in the design textbook, chapter 5; no text prints this form
 * @validity ductile metals; the torque in the shank, of which the bearing face takes none
 * @example rootShearTorqueNm({ rootDiameterMm: 8.16, yieldMPa: 640, preloadN: 0 }) // 39.42
 */
export function rootShearTorqueNm(x: { rootDiameterMm: number; yieldMPa: number; preloadN: number }): number {
  const { rootDiameterMm: d3, yieldMPa: Sy, preloadN: F } = x;
  demand(d3 > 0, 'root diameter', d3, 'more than 0 mm');
  demand(Sy > 0, 'yield strength', Sy, 'more than 0 MPa');
  const carriedN = (Math.PI / 4) * d3 ** 2 * Sy;
  demand(
    F >= 0 && F <= carriedN,
    'greatest preload',
    F,
    `0 to ${carriedN} N, at which the root yields without any torque`,
  );
  return ((Math.PI / 16) * d3 ** 3 * (Sy / Math.sqrt(3)) * Math.sqrt(1 - (F / carriedN) ** 2)) / 1000;
}
