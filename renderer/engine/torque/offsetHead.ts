import { RefusedError } from '../errors.ts';

/**
 * What to set for each newton metre at the fastener, with an offset head between the tool's square and the fastener.
 *
 *   set ÷ applied = L/(L + E·cos θ)
 *
 * @param x.leverMm - L, from the axis of the tool's square to the grip mark [mm], > 0
 * @param x.lengthMm - E, from the axis of the tool's square to the axis of the fastener [mm], ≥ 0
 * @param x.angleDeg - θ, from straight outward [deg]: 0° straight out, 90° square to the lever, 180° back over it; any angle
 * @returns set ÷ applied, 1 at 90°, below 1 straight out
 * @throws RefusedError out-of-range where L + E·cos θ is not above 0: the fastener would lie at or beyond the hand
 * @source NAVEDTRA 14315 fig. 3-45; TM 9-254 p. 91, whose angled form is printed with "x" for "+" (text found); NAVEDTRA 14008
 *   for 90°
 * @validity one hand at the grip mark, the force square to the lever; wrenches with a lever only
 * @example offsetCorrection({ leverMm: 304.8, lengthMm: 152.4, angleDeg: 0 }) // 0.6667
 */
export function offsetCorrection(x: { leverMm: number; lengthMm: number; angleDeg: number }): number {
  const { leverMm: L, lengthMm: E, angleDeg } = x;
  const reachMm = L + E * cosOfDeg(angleDeg);
  if (!(L > 0) || !(E >= 0) || !(reachMm > L * 1e-9)) {
    throw new RefusedError({
      code: 'out-of-range',
      message: `lever ${L} mm and offset head ${E} mm at ${angleDeg}° leave ${reachMm} mm between hand and fastener: it must be above 0`,
      value: angleDeg,
    });
  }
  return L / reachMm;
}

/** Angles whose cosine is exact: a head square to the lever changes nothing at all. */
const exactCosines = new Map([
  [0, 1],
  [60, 0.5],
  [90, 0],
  [120, -0.5],
  [180, -1],
]);

function cosOfDeg(angleDeg: number): number {
  const turned = Math.abs(angleDeg) % 360;
  const within = turned > 180 ? 360 - turned : turned;
  return exactCosines.get(within) ?? Math.cos((within * Math.PI) / 180);
}
