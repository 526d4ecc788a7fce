import type { Cursor } from './cursor.ts';

/**
 * Greatest pitch as a share of the major diameter that is still taken for a fastener thread. Standard series stay below 0.26
 * (M1, number 10 coarse); at 0.5 the root would be under two fifths of the diameter. Common practice, no source.
 */
const pitchShareMax = 0.5;

/** Whether a pitch leaves a thread of that diameter a core. */
export function isPossible(x: { majorMm: number; pitchMm: number }): boolean {
  return x.pitchMm <= pitchShareMax * x.majorMm;
}

/**
 * Refuses a pitch so coarse that no thread of that diameter has a core to carry it.
 *
 * @throws RefusedError out-of-range
 */
export function refuseImpossible(at: Cursor, x: { majorMm: number; pitchMm: number }, position: number): void {
  if (isPossible(x)) return;
  const [pitch, major] = [x.pitchMm, x.majorMm].map((mm) => Number(mm.toPrecision(6)));
  throw at.refuse(
    `has a pitch of ${pitch} mm on a diameter of ${major} mm: more than half the diameter is no fastener thread.`,
    'out-of-range',
    position,
  );
}
