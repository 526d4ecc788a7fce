import { demand } from './demand.ts';
import { stressDiameterMm, type Torsion } from './stress.ts';

/** c, shear over tension in units of the slope ratio: 16/8 and 12/8. */
const torsionRatio: Record<Torsion, number> = { elastic: 2, plastic: 1.5 };

/**
 * Preload at which tension and torsion together, while tightening, reach a share of yield.
 *
 *   F = A0·ν·Rp/√(1 + 3·(c·(d2/d0)·(P/(π d2) + 1.1547 μ))²),  d0 = √(4·As/π),  A0 = As
 *
 * @param x.share - ν, equivalent stress over yield, 0 < ν ≤ 1; 0.9 in the tables of VDI 2230
 * @param x.yieldMPa - Rp [MPa], > 0
 * @param x.stressAreaMm2 - As [mm²], > 0
 * @param x.pitchDiameterMm - d2 [mm], > 0
 * @param x.pitchMm - P [mm], > 0
 * @param x.friction - μ, coefficient of friction in the thread, 0 < μ < 1
 * @param x.torsion - plastic (c = 1.5, tables from 2001 on) or elastic (c = 2)
 * @returns F [N]
 * @throws RefusedError out-of-range, not-finite
 * @source VDI 2230 part 1 (2001 and 2003), equations for the assembly state; its tables of fine threads are met within 0.34 %
 * @validity 60° threads with one start, shank not thinner than the thread
 * @example M10, μ 0.12, 8.8: yieldSharePreloadN({ share: 0.9, yieldMPa: 640, stressAreaMm2: 57.99, pitchDiameterMm: 9.0257,
 *   pitchMm: 1.5, friction: 0.12, torsion: 'plastic' }) // 29605
 */
export function yieldSharePreloadN(x: {
  share: number;
  yieldMPa: number;
  stressAreaMm2: number;
  pitchDiameterMm: number;
  pitchMm: number;
  friction: number;
  torsion: Torsion;
}): number {
  const { pitchDiameterMm: d2, pitchMm: P, friction } = x;
  demand(x.share > 0 && x.share <= 1, 'share of yield', x.share, 'above 0 and at most 1');
  demand(x.yieldMPa > 0, 'yield strength', x.yieldMPa, 'more than 0 MPa');
  demand(d2 > 0, 'pitch diameter', d2, 'more than 0 mm');
  demand(P > 0, 'pitch', P, 'more than 0 mm');
  demand(friction > 0 && friction < 1, 'friction in the thread', friction, 'above 0 and below 1');
  const d0 = stressDiameterMm(x);
  const shearOverTension = torsionRatio[x.torsion] * (d2 / d0) * (P / (Math.PI * d2) + 1.1547 * friction);
  return (x.stressAreaMm2 * x.share * x.yieldMPa) / Math.sqrt(1 + 3 * shearOverTension ** 2);
}

/**
 * Preload at which tension alone, on the stress area, is a share of yield.
 *
 *   F = ν·Rp·As
 *
 * @param x.share - ν, tension over yield, 0 < ν ≤ 1; 0.65 in NASA TM-106943
 * @param x.yieldMPa - Rp [MPa], > 0
 * @param x.stressAreaMm2 - As [mm²], > 0
 * @returns F [N]
 * @throws RefusedError out-of-range, not-finite
 * @source NASA TM-106943 (1995), nominal preload 0.65·Fty·At (read)
 * @validity tension alone: while tightening, torsion comes on top
 * @example stressSharePreloadN({ share: 0.65, yieldMPa: 586.05, stressAreaMm2: 23.48 }) // 8944
 */
export function stressSharePreloadN(x: { share: number; yieldMPa: number; stressAreaMm2: number }): number {
  demand(x.share > 0 && x.share <= 1, 'share of yield', x.share, 'above 0 and at most 1');
  demand(x.yieldMPa > 0, 'yield strength', x.yieldMPa, 'more than 0 MPa');
  demand(x.stressAreaMm2 > 0, 'stress area', x.stressAreaMm2, 'more than 0 mm²');
  return x.share * x.yieldMPa * x.stressAreaMm2;
}
