import { RefusedError } from '../errors.ts';
import { atMost } from '../tolerance.ts';

/** The five square drives by their inch side, each with the metric name of the same square [mm]. */
const squares = [
  { inchMm: 6.35, metricMm: 6.3, name: '1/4 in' },
  { inchMm: 9.525, metricMm: 10, name: '3/8 in' },
  { inchMm: 12.7, metricMm: 12.5, name: '1/2 in' },
  { inchMm: 19.05, metricMm: 20, name: '3/4 in' },
  { inchMm: 25.4, metricMm: 25, name: '1 in' },
] as const;

const nominalToleranceMm = 0.01;

/**
 * The standard square a drive's size names.
 *
 * @param sideMm - side of the square as named [mm]: an inch size or its metric name
 * @returns the side by its inch name [mm]: 6.35, 9.525, 12.7, 19.05 or 25.4
 * @throws RefusedError out-of-range where the size is none of the five
 * @source common practice, no source: 6.3, 10, 12.5, 20 and 25 mm name the inch squares
 * @validity square drives of hand tools
 * @example squareSideMm(10) // 9.525
 */
export function squareSideMm(sideMm: number): number {
  const square = squares.find(
    (s) =>
      atMost(Math.abs(s.inchMm - sideMm), nominalToleranceMm) ||
      atMost(Math.abs(s.metricMm - sideMm), nominalToleranceMm),
  );
  if (square) return square.inchMm;
  throw new RefusedError({
    code: 'out-of-range',
    message:
      'is no square drive known here: 1/4 in, 3/8 in, 1/2 in, 3/4 in or 1 in (6.3, 10, 12.5, 20 or 25 mm name the same squares)',
  });
}

/** The square's inch name, as results and drawings write it. */
export function squareName(sideMm: number): string {
  return squares.find((s) => s.inchMm === sideMm)?.name ?? `${sideMm} mm`;
}
