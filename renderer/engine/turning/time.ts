/**
 * Time to make so many turns or strokes, from a pace that somebody has stated.
 *
 *   time = count × seconds each
 *
 * @param x.count - turns, or whole strokes, ≥ 0
 * @param x.secondsEach - stated seconds for one [s], > 0; null where none is stated
 * @returns [s]; null without a stated pace: none is assumed
 * @throws nothing
 * @source definition
 * @validity the stated pace holds for that hand, that place and that fastener
 * @example turningSeconds({ count: 72, secondsEach: 1.5 }) // 108
 */
export function turningSeconds(x: { count: number; secondsEach: number | null }): number | null {
  return x.secondsEach === null ? null : x.count * x.secondsEach;
}
