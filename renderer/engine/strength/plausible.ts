/** Far beyond any material on either side, and near enough that no sum or ratio of strengths leaves the doubles: common practice, no source. */
export const plausibleMPa = { min: 0.1, max: 100_000 };

export function isPlausibleMPa(mpa: number): boolean {
  return mpa >= plausibleMPa.min && mpa <= plausibleMPa.max;
}
