import { demand } from './demand.ts';

/** A screw thread as the torque formulas need it. */
export interface ScrewThread {
  /** dm, mean thread diameter [mm]. */
  meanDiameterMm: number;
  /** Axial travel in one turn [mm]: pitch times starts. */
  leadMm: number;
  /** α, half of the thread angle in the axial section [deg]. */
  halfAngleDeg: number;
}

/**
 * Tangent of the lead angle at the mean diameter.
 *
 *   tan λ = lead/(π·dm)
 *
 * @param x.meanDiameterMm - dm [mm], > 0
 * @param x.leadMm - lead [mm], > 0
 * @returns tan λ
 * @throws RefusedError out-of-range, not-finite
 * @source geometry of the helix; mechanical engineering design textbook, chapter 8 (read)
 * @validity any screw
 * @example tanLeadAngle({ meanDiameterMm: 9.026, leadMm: 1.5 }) // 0.0529
 */
export function tanLeadAngle({ meanDiameterMm, leadMm }: { meanDiameterMm: number; leadMm: number }): number {
  demand(meanDiameterMm > 0, 'mean thread diameter', meanDiameterMm, 'more than 0 mm');
  demand(leadMm > 0, 'lead', leadMm, 'more than 0 mm');
  return leadMm / (Math.PI * meanDiameterMm);
}

/**
 * Thread friction as it acts across the inclined flank.
 *
 *   f·sec α
 *
 * @param x.halfAngleDeg - α [deg], 0 to below 90; 30 fasteners, 0 square, 14.5 Acme, 15 trapezoidal
 * @param x.friction - f, coefficient of friction in the thread, 0 < f < 1
 * @returns f·sec α
 * @throws RefusedError out-of-range, not-finite
 * @source mechanical engineering design textbook, chapter 8, axial thread angle (read)
 * @validity small lead angles, at which the axial and the normal thread angle are the same
 * @example flankFriction({ halfAngleDeg: 30, friction: 0.12 }) // 0.13856
 */
export function flankFriction({ halfAngleDeg, friction }: { halfAngleDeg: number; friction: number }): number {
  demand(halfAngleDeg >= 0 && halfAngleDeg < 90, 'half angle of the thread', halfAngleDeg, '0 to below 90 deg');
  demand(friction > 0 && friction < 1, 'friction in the thread', friction, 'above 0 and below 1');
  return friction / Math.cos((halfAngleDeg * Math.PI) / 180);
}

/**
 * Arm at which the thread takes up torque while tightening: thread torque over preload.
 *
 *   dm/2·(tan λ + f·sec α)/(1 − f·tan λ·sec α)
 *
 * @param x.meanDiameterMm - dm [mm], > 0
 * @param x.leadMm - lead [mm], > 0
 * @param x.halfAngleDeg - α [deg], 0 to below 90
 * @param x.friction - f, coefficient of friction in the thread, 0 < f < 1
 * @returns arm [mm]
 * @throws RefusedError out-of-range where 1 − f·tan λ·sec α ≤ 0 (the screw cannot be turned by any torque), not-finite
 * @source mechanical engineering design textbook, 8th and 9th ed., eq. 8-1 and 8-5, and Example 8-3 (read)
 * @validity single and multiple start screws of any half angle
 * @example screwThreadArmMm({ meanDiameterMm: 22.5, leadMm: 5, halfAngleDeg: 0, friction: 0.08 }) // 1.7054
 */
export function screwThreadArmMm(x: ScrewThread & { friction: number }): number {
  const tanLead = tanLeadAngle(x);
  const f = flankFriction(x);
  const denominator = 1 - f * tanLead;
  demand(denominator > 0, 'term 1 − f·tan λ·sec α of the screw equation', denominator, 'more than 0');
  return ((x.meanDiameterMm / 2) * (tanLead + f)) / denominator;
}

/**
 * Arm at which the bearing face under head, nut or collar takes up torque: bearing torque over preload.
 *
 *   fc·dc/2
 *
 * @param x.friction - fc, coefficient of friction under the bearing face, 0 ≤ fc < 1; 0 where nothing rubs
 * @param x.bearingDiameterMm - dc, mean diameter of the bearing face [mm], ≥ 0; Dk = (dw + dh)/2 in VDI 2230; 0 where nothing rubs
 * @returns arm [mm]
 * @throws RefusedError out-of-range, not-finite
 * @source mechanical engineering design textbook, eq. 8-6, uniform wear (read)
 * @validity bearing pressure that falls with the radius (uniform wear)
 * @example bearingArmMm({ friction: 0.05, bearingDiameterMm: 40 }) // 1
 */
export function bearingArmMm(x: { friction: number; bearingDiameterMm: number }): number {
  demand(x.friction >= 0 && x.friction < 1, 'friction under the bearing face', x.friction, '0 or more and below 1');
  demand(x.bearingDiameterMm >= 0, 'mean diameter of the bearing face', x.bearingDiameterMm, '0 mm or more');
  return (x.friction * x.bearingDiameterMm) / 2;
}
