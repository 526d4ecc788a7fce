import { standardNormalCdf, standardNormalQuantile } from '../chance/normal.ts';
import type { Draws } from '../chance/draws.ts';
import type { BandNm } from '../plan/resolved.ts';
import { atLeast, atMost } from '../tolerance.ts';

/** How a tool's torque is spread over its permissible deviation. `coverage` is the share of it that lies inside. */
export type ToolError = { form: 'exact' } | { form: 'uniform' } | { form: 'normal'; coverage: number };

/**
 * The probability that the applied torque lies in the aim.
 *
 *   pc = Φ((M − A)/u) − Φ((m − A)/u);  u = h/z, z the deviate of the coverage, h half the applied band
 *   uniform: share of the applied band that lies in the aim
 *
 * @param x.applied - the tool's permissible deviation about A [N·m]
 * @param x.aim - m, M [N·m], m ≤ M
 * @param x.error - exact (no error), uniform over the band, or normal with the share of all torques the band covers, 0 to 1
 * @returns pc, 0 to 1
 * @throws RefusedError out-of-range where the coverage is not between 0 and 1
 * @source JCGM 106, conformance probability of a normal and of a rectangular distribution (from memory)
 * @validity beside the decision, which it never replaces
 * @example 24 to 26 N·m applied, aim 24.5 to 30, uniform: 0.75
 */
export function probabilityOfConformity(x: { applied: BandNm; aim: BandNm; error: ToolError }): number {
  const { applied, aim, error } = x;
  const nominalNm = (applied.minNm + applied.maxNm) / 2;
  const halfNm = (applied.maxNm - applied.minNm) / 2;
  // A deviation below what limits are told apart by is none.
  if (error.form === 'exact' || halfNm <= Number.EPSILON * Math.abs(nominalNm))
    return atLeast(nominalNm, aim.minNm) && atMost(nominalNm, aim.maxNm) ? 1 : 0;
  if (error.form === 'uniform') {
    const common = Math.min(applied.maxNm, aim.maxNm) - Math.max(applied.minNm, aim.minNm);
    return Math.min(1, Math.max(0, common / (2 * halfNm)));
  }
  const deviationNm = halfNm / standardNormalQuantile((1 + error.coverage) / 2);
  const above = (limitNm: number): number => (limitNm - nominalNm) / deviationNm;
  return between(above(aim.minNm), above(aim.maxNm));
}

/** Φ(high) − Φ(low), on the side where neither is near 1 and the difference keeps its digits. */
function between(low: number, high: number): number {
  return low > 0
    ? standardNormalCdf(-low) - standardNormalCdf(-high)
    : standardNormalCdf(high) - standardNormalCdf(low);
}

/**
 * Draws of a tool's error in half widths of its permissible deviation: −1 and 1 are its ends.
 *
 *   uniform: 2·u − 1;  normal: n/z, z the deviate of the coverage
 *
 * @param error - its spread
 * @param draws - the stream to draw from
 * @returns what gives the next draw
 * @throws RefusedError out-of-range where a coverage is not between 0 and 1
 * @source definition of coverage
 * @validity as ToolError
 * @example errorDraw({ form: 'exact' }, draws)() // 0
 */
export function errorDraw(error: ToolError, draws: Draws): () => number {
  if (error.form === 'exact') return () => 0;
  if (error.form === 'uniform') return () => 2 * draws.uniform() - 1;
  const z = standardNormalQuantile((1 + error.coverage) / 2);
  return () => draws.normal() / z;
}
