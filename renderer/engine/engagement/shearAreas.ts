import type { LimitsOfSize } from '../thread/index.ts';

/** tan 30°, as the standard prints it. */
const tan30 = 0.57735;

interface Sheared {
  pitchMm: number;
  engagementMm: number;
  limits: LimitsOfSize;
}

/**
 * Shear area of the external thread, at the crest of the largest internal one.
 *
 *   ASs = π·n·Le·D1max·(1/(2n) + 0.57735·(d2min − D1max))
 *
 * @param x.pitchMm - P = 1/n [mm], > 0
 * @param x.engagementMm - Le, length of full threads engaged [mm], > 0
 * @param x.limits - D1max, greatest minor diameter of the internal thread, and d2min, least pitch diameter of the external one [mm]
 * @returns ASs [mm²]; not above 0 where the threads do not overlap
 * @throws nothing; judgeEngagement refuses what is outside the ranges
 * @source FED-STD-H28/2B, shear area formulas (read in reproductions)
 * @validity 60° threads, full threads only; inch and metric alike
 * @example shearAreaExternalMm2({ pitchMm: 25.4 / 13, engagementMm: 12.7, limits }) // 251.3 (0.3895 in²) for 1/2-13, 2A/2B
 */
export function shearAreaExternalMm2({ pitchMm: P, engagementMm: Le, limits }: Sheared): number {
  const { minorInternalMaxMm: D1max, pitchExternalMinMm: d2min } = limits;
  return ((Math.PI * Le * D1max) / P) * (P / 2 + tan30 * (d2min - D1max));
}

/**
 * Shear area of the internal thread, at the crest of the smallest external one.
 *
 *   ASn = π·n·Le·dmin·(1/(2n) + 0.57735·(dmin − D2max))
 *
 * @param x.pitchMm - P = 1/n [mm], > 0
 * @param x.engagementMm - Le, length of full threads engaged [mm], > 0
 * @param x.limits - dmin, least major diameter of the external thread, and D2max, greatest pitch diameter of the internal one [mm]
 * @returns ASn [mm²]; not above 0 where the threads do not overlap
 * @throws nothing; judgeEngagement refuses what is outside the ranges
 * @source FED-STD-H28/2B, shear area formulas (read in reproductions)
 * @validity 60° threads, full threads only; inch and metric alike
 * @example shearAreaInternalMm2({ pitchMm: 25.4 / 13, engagementMm: 12.7, limits }) // 362.4 (0.5617 in²) for 1/2-13, 2A/2B
 */
export function shearAreaInternalMm2({ pitchMm: P, engagementMm: Le, limits }: Sheared): number {
  const { majorExternalMinMm: dmin, pitchInternalMaxMm: D2max } = limits;
  return ((Math.PI * Le * dmin) / P) * (P / 2 + tan30 * (dmin - D2max));
}

/**
 * Length of engagement at which the bolt breaks before its own thread strips.
 *
 *   Le = 2·At / (π·n·D1max·(1/(2n) + 0.57735·(d2min − D1max)))
 *
 * @param x.pitchMm - P = 1/n [mm], > 0
 * @param x.stressAreaMm2 - At, tensile stress area [mm²], > 0
 * @param x.limits - as shearAreaExternalMm2
 * @returns Le [mm]; for a weaker internal thread it is multiplied by J where that is above 1
 * @throws nothing; judgeEngagement refuses what is outside the ranges
 * @source FED-STD-H28/2B, length of engagement (read in reproductions)
 * @validity shear strength half the tensile strength; full threads only
 * @example engagementForBoltBreakMm({ pitchMm: 25.4 / 13, stressAreaMm2: 91.6, limits }) // 9.25 (0.3643 in) for 1/2-13, 2A/2B
 */
export function engagementForBoltBreakMm(x: { pitchMm: number; stressAreaMm2: number; limits: LimitsOfSize }): number {
  return (2 * x.stressAreaMm2) / shearAreaExternalMm2({ ...x, engagementMm: 1 });
}

/**
 * Relative strength of the external and the internal thread.
 *
 *   J = ASs·Rm,ext / (ASn·Rm,int)
 *
 * @param x.shearAreaExternalMm2 - ASs [mm²], > 0
 * @param x.shearAreaInternalMm2 - ASn [mm²], > 0
 * @param x.externalUltimateMPa - Rm,ext, tensile strength of the external thread [MPa], > 0
 * @param x.internalUltimateMPa - Rm,int, tensile strength of the internal thread [MPa], > 0
 * @returns J; above 1 the internal thread is the weaker
 * @throws nothing; judgeEngagement refuses what is outside the ranges
 * @source FED-STD-H28/2B, length of engagement (read in reproductions)
 * @validity both areas of the same length of engagement, on which J does not depend
 * @example strengthRatioJ({ shearAreaExternalMm2: 250, shearAreaInternalMm2: 360, externalUltimateMPa: 800, internalUltimateMPa: 400 }) // 1.389
 */
export function strengthRatioJ(x: {
  shearAreaExternalMm2: number;
  shearAreaInternalMm2: number;
  externalUltimateMPa: number;
  internalUltimateMPa: number;
}): number {
  return (x.shearAreaExternalMm2 * x.externalUltimateMPa) / (x.shearAreaInternalMm2 * x.internalUltimateMPa);
}
