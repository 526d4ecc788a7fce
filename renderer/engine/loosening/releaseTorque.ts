import { demand } from '../preload/formula/demand.ts';
import { bearingArmMm, flankFriction, type ScrewThread, tanLeadAngle } from '../preload/formula/index.ts';

/**
 * Arm at which the thread takes up torque while loosening: thread torque over preload.
 *
 *   dm/2·(f·sec α − tan λ)/(1 + f·sec α·tan λ)
 *
 * @param x.meanDiameterMm - dm [mm], > 0
 * @param x.leadMm - lead [mm], > 0
 * @param x.halfAngleDeg - α [deg], 0 to below 90
 * @param x.friction - f, static coefficient of friction in the thread, 0 < f < 1
 * @returns arm [mm]; below 0 the preload turns the thread by itself
 * @throws RefusedError out-of-range, not-finite
 * @source mechanical engineering design textbook, 8th and 9th ed., eq. 8-2, lowering the load (read)
 * @validity single and multiple start screws of any half angle
 * @example releaseThreadArmMm({ meanDiameterMm: 22.5, leadMm: 5, halfAngleDeg: 0, friction: 0.08 }) // 0.1036
 */
export function releaseThreadArmMm(x: ScrewThread & { friction: number }): number {
  const tanLead = tanLeadAngle(x);
  const f = flankFriction(x);
  return ((x.meanDiameterMm / 2) * (f - tanLead)) / (1 + f * tanLead);
}

/**
 * Torque that starts a seated fastener in the loosening direction.
 *
 *   T = F·dm/2·(f·sec α − tan λ)/(1 + f·sec α·tan λ) + F·fc·dc/2 + T_run
 *
 * @param x.preloadN - F, preload it is seated with [N], ≥ 0
 * @param x.screw - thread and its static friction, see releaseThreadArmMm
 * @param x.bearing - friction fc and mean diameter dc of the bearing face, see bearingArmMm
 * @param x.runningNm - T_run, running torque of a locking fastener [N·m], ≥ 0; 0 where there is none
 * @returns T [N·m]; below 0 it loosens by itself
 * @throws RefusedError out-of-range, not-finite
 * @source mechanical engineering design textbook, eq. 8-2 and 8-6, problem 8-4 (read)
 * @validity static friction as given: a joint that has settled, corroded or been painted takes more
 * @example problem 8-4: preloadN 6000, dm 22.5, lead 5, square, f 0.08, fc 0.05, dc 40 // 6.622
 */
export function releaseTorqueNm(x: {
  preloadN: number;
  screw: ScrewThread & { friction: number };
  bearing: { friction: number; bearingDiameterMm: number };
  runningNm: number;
}): number {
  demand(x.preloadN >= 0, 'preload', x.preloadN, '0 N or more');
  demand(x.runningNm >= 0, 'running torque', x.runningNm, '0 N·m or more');
  return (x.preloadN * (releaseThreadArmMm(x.screw) + bearingArmMm(x.bearing))) / 1000 + x.runningNm;
}

/**
 * Whether the thread holds its preload without help from the bearing face.
 *
 *   f·sec α > tan λ
 *
 * @param x.meanDiameterMm - dm [mm], > 0
 * @param x.leadMm - lead [mm], > 0
 * @param x.halfAngleDeg - α [deg], 0 to below 90
 * @param x.friction - f, static coefficient of friction in the thread, 0 < f < 1
 * @returns true where it does
 * @throws RefusedError out-of-range, not-finite
 * @source mechanical engineering design textbook, eq. 8-3 (read)
 * @validity at rest; vibration lowers the friction that acts
 * @example isSelfLocking({ meanDiameterMm: 9.026, leadMm: 1.5, halfAngleDeg: 30, friction: 0.12 }) // true
 */
export function isSelfLocking(x: ScrewThread & { friction: number }): boolean {
  return flankFriction(x) > tanLeadAngle(x);
}
