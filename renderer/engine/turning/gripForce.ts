import { RefusedError } from '../errors.ts';

/**
 * Force of a hand at the grip of a lever for a torque.
 *
 *   F = T/L
 *
 * @param x.torqueNm - T, torque at the tool's square [N·m], ≥ 0
 * @param x.leverMm - L, from the square's axis to the middle of the grip [mm], > 0
 * @returns F [N], square to the lever
 * @throws RefusedError out-of-range
 * @source definition of a moment
 * @validity one hand, pulling square to the lever; offset heads apart
 * @example gripForceN({ torqueNm: 45, leverMm: 300 }) // 150
 */
export function gripForceN({ torqueNm, leverMm }: { torqueNm: number; leverMm: number }): number {
  if (!(torqueNm >= 0) || !(leverMm > 0))
    throw new RefusedError({
      code: 'out-of-range',
      message: `a torque of ${torqueNm} N·m on a lever of ${leverMm} mm has no force at the grip: the lever must be above 0 mm`,
      value: leverMm,
    });
  return (torqueNm * 1000) / leverMm;
}
