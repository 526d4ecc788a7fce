import { demand } from './demand.ts';

/**
 * Arm at which a 60° thread takes up torque while tightening, in the linear form.
 *
 *   0.15915 P + 0.57735 μ d2
 *
 * The constants are 1/(2π) and 1/(2·cos 30°), kept to the five digits in which the form is written.
 *
 * @param x.pitchMm - P, pitch of a single-start thread [mm], > 0
 * @param x.pitchDiameterMm - d2, basic pitch diameter [mm], > 0
 * @param x.friction - μ, coefficient of friction in the thread, 0 < μ < 1
 * @returns arm [mm]
 * @throws RefusedError out-of-range, not-finite
 * @source VDI 2230 part 1 (2001 and 2003), tightening torque; read in reproductions with three digits
 * @validity 60° threads of small lead angle; at 3° and μ 0.15 it lies 0.9 % of the thread's part under the screw equation
 * @example linearThreadArmMm({ pitchMm: 1.5, pitchDiameterMm: 9.026, friction: 0.12 }) // 0.86406
 */
export function linearThreadArmMm(x: { pitchMm: number; pitchDiameterMm: number; friction: number }): number {
  const { pitchMm: P, pitchDiameterMm: d2, friction } = x;
  demand(P > 0, 'pitch', P, 'more than 0 mm');
  demand(d2 > 0, 'pitch diameter', d2, 'more than 0 mm');
  demand(friction > 0 && friction < 1, 'friction in the thread', friction, 'above 0 and below 1');
  return 0.15915 * P + 0.57735 * friction * d2;
}

/**
 * Arm of the thread's torque as the assembly stress of VDI 2230 holds it.
 *
 *   d2/2·(P/(π d2) + 1.1547 μ)
 *
 * @param x.pitchMm - P [mm], > 0
 * @param x.pitchDiameterMm - d2 [mm], > 0
 * @param x.friction - μ, coefficient of friction in the thread, 0 < μ < 1
 * @returns arm [mm]; the same as the linear form's but for the fifth digit of its constants
 * @throws RefusedError out-of-range, not-finite
 * @source VDI 2230 part 1 (2001 and 2003), equations for the assembly state, as reproduced
 * @validity 60° threads, single start
 * @example assemblyArmMm({ pitchMm: 1.5, pitchDiameterMm: 9.026, friction: 0.12 }) // 0.86407
 */
export function assemblyArmMm(x: { pitchMm: number; pitchDiameterMm: number; friction: number }): number {
  const { pitchMm: P, pitchDiameterMm: d2, friction } = x;
  demand(P > 0, 'pitch', P, 'more than 0 mm');
  demand(d2 > 0, 'pitch diameter', d2, 'more than 0 mm');
  demand(friction > 0 && friction < 1, 'friction in the thread', friction, 'above 0 and below 1');
  return (d2 / 2) * (P / (Math.PI * d2) + 1.1547 * friction);
}
