/** Far beyond any material on either side, and near enough that no sum or ratio of strengths leaves the doubles: common practice, no source. */
export const plausibleMPa = { min: 0.1, max: 100_000 };

/**
 * Whether a strength can be one of a material.
 *
 *   0.1 MPa ≤ Rm ≤ 100 000 MPa
 *
 * @param mpa - any strength [MPa], any number
 * @returns true inside the range, its ends included; false for NaN
 * @throws nothing; its callers refuse with the field's name
 * @source common practice, no source
 * @validity proof, yield, tensile and shear strengths
 * @example isPlausibleMPa(830) // true
 */
export function isPlausibleMPa(mpa: number): boolean {
  return mpa >= plausibleMPa.min && mpa <= plausibleMPa.max;
}
