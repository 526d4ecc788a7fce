import { demand } from './demand.ts';

/** How the torsion is spread over the section: rising to the rim, or the same everywhere once it all yields. */
export type Torsion = 'elastic' | 'plastic';

/** 16/π and 12/π of the torsion formulas: the section modulus π·d0³ over these. */
const torsionFactor: Record<Torsion, number> = { elastic: 16, plastic: 12 };

/**
 * Tension in the thread's stress area.
 *
 *   σ = F/A0
 *
 * @param x.preloadN - F [N]
 * @param x.stressAreaMm2 - A0 = As, stress area [mm²], > 0
 * @returns σ [MPa]
 * @throws RefusedError out-of-range, not-finite
 * @source ISO 898-1, clause on the stress area (read in reproductions)
 * @validity nominal stress, without bending and notches
 * @example tensionMPa({ preloadN: 29600, stressAreaMm2: 57.99 }) // 510.4
 */
export function tensionMPa({ preloadN, stressAreaMm2 }: { preloadN: number; stressAreaMm2: number }): number {
  demand(stressAreaMm2 > 0, 'stress area', stressAreaMm2, 'more than 0 mm²');
  return preloadN / stressAreaMm2;
}

/**
 * Diameter of the round section that has the stress area.
 *
 *   d0 = √(4·As/π)
 *
 * @param x.stressAreaMm2 - As [mm²], > 0
 * @returns d0 [mm]; (d2 + d3)/2 for metric threads
 * @throws RefusedError out-of-range, not-finite
 * @source VDI 2230 part 1 (2001), diameter of the stress section, as reproduced
 * @validity M, UN and UNJ threads
 * @example stressDiameterMm({ stressAreaMm2: 57.99 }) // 8.593
 */
export function stressDiameterMm({ stressAreaMm2 }: { stressAreaMm2: number }): number {
  demand(stressAreaMm2 > 0, 'stress area', stressAreaMm2, 'more than 0 mm²');
  return Math.sqrt((4 * stressAreaMm2) / Math.PI);
}

/**
 * Greatest shear from the thread's part of the torque.
 *
 *   τ = 16 Mt/(π d0³) elastic, 12 Mt/(π d0³) fully plastic
 *
 * @param x.threadTorqueNm - Mt, torque the shank carries: the thread's part, without the bearing face [N·m]
 * @param x.stressDiameterMm - d0 [mm], > 0
 * @param x.torsion - elastic or plastic
 * @returns τ [MPa]
 * @throws RefusedError out-of-range, not-finite
 * @source VDI 2230 part 1: elastic in the tables before 2001, fully plastic (π/12·d0³) from 2001 on; as reproduced
 * @validity round section; plastic only where the whole section yields
 * @example torsionMPa({ threadTorqueNm: 25.576, stressDiameterMm: 8.5928, torsion: 'elastic' }) // 205.3
 */
export function torsionMPa(x: { threadTorqueNm: number; stressDiameterMm: number; torsion: Torsion }): number {
  demand(x.stressDiameterMm > 0, 'stress diameter', x.stressDiameterMm, 'more than 0 mm');
  return (torsionFactor[x.torsion] * 1000 * x.threadTorqueNm) / (Math.PI * x.stressDiameterMm ** 3);
}

/**
 * One tension that strains a ductile metal as tension and torsion together do.
 *
 *   σv = √(σ² + 3τ²)
 *
 * @param x.tensionMPa - σ [MPa]
 * @param x.shearMPa - τ [MPa]
 * @returns σv [MPa], never below |σ|
 * @throws nothing
 * @source distortion energy, as in VDI 2230 part 1 (reproduced) and the design textbook, chapter 5
 * @validity ductile metals
 * @example equivalentMPa({ tensionMPa: 510.44, shearMPa: 153.98 }) // 575.9
 */
export function equivalentMPa({ tensionMPa: s, shearMPa: t }: { tensionMPa: number; shearMPa: number }): number {
  return Math.sqrt(s ** 2 + 3 * t ** 2);
}
