import { showNumber } from '../../engine/units/index.ts';

/** Work adds every step up; the time out runs the roles of a slot beside each other, and is what the limit judges. */
export function timeText(times: { workMin: number; outMin: number; minutesMax: number | null }): string[] {
  const { workMin, outMin, minutesMax } = times;
  if (workMin === 0) return [];
  const limit = minutesMax === null ? '' : ` of ${showNumber(minutesMax)}`;
  return [`${showNumber(workMin)}\u00a0min of work, ${showNumber(outMin)}${limit}\u00a0min\u00a0out`];
}
