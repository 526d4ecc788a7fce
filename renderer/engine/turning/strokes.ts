import { limitTolerance } from '../tolerance.ts';

export interface Strokes {
  /** Turned in one stroke: the whole steps that the swing holds [deg]. */
  strokeDeg: number;
  /** Strokes as the formula gives them. */
  strokes: number;
  /** Strokes as a hand makes them, the last one perhaps short. */
  wholeStrokes: number;
}

/**
 * Strokes of a tool in a free swing to make so many turns.
 *
 *   strokes = turns·360/(⌊φ/step⌋·step)
 *
 * @param x.turns - ≥ 0
 * @param x.swingDeg - φ, free swing of the handle [deg], > 0, ≤ 360
 * @param x.stepDeg - step of the ratchet, or reset angle of a socket without one [deg], > 0
 * @returns the strokes; null where the swing is smaller than one step: the tool cannot turn there. An exact multiple of the step
 *   loses no step, and an exact number of strokes gains none, to the rounding of doubles
 * @throws nothing
 * @source geometry of a ratchet
 * @validity the handle starts at one end of the swing
 * @example strokesInSwing({ turns: 12, swingDeg: 63, stepDeg: 5 })?.strokes // 72
 */
export function strokesInSwing(x: { turns: number; swingDeg: number; stepDeg: number }): Strokes | null {
  const steps = Math.floor((x.swingDeg / x.stepDeg) * (1 + limitTolerance));
  if (steps < 1) return null;
  const strokeDeg = steps * x.stepDeg;
  const strokes = (x.turns * 360) / strokeDeg;
  return { strokeDeg, strokes, wholeStrokes: Math.ceil(strokes * (1 - limitTolerance)) };
}
