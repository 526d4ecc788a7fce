import { RefusedError } from '../errors.ts';

/** Three points of a triangular distribution. */
export interface Triangle {
  least: number;
  likely: number;
  most: number;
}

/**
 * The value below which a share of a triangular distribution lies.
 *
 *   u ≤ F: a + √(u·(b − a)·(m − a));  else b − √((1 − u)·(b − a)·(b − m));  F = (m − a)/(b − a)
 *
 * @param t.least - a [min, or any unit that the three share], finite
 * @param t.likely - m [min, likewise], a ≤ m
 * @param t.most - b [min, likewise], m ≤ b, finite
 * @param share - u, 0 to 1
 * @returns the value, a to b
 * @throws RefusedError out-of-range where the points are not in order or u is not between 0 and 1
 * @source inverse of the triangular distribution function (textbook, from memory)
 * @validity a ≤ m ≤ b; a = b gives a
 * @example triangularQuantile({ least: 0, likely: 1, most: 4 }, 0.25) // 1
 */
export function triangularQuantile(t: Triangle, share: number): number {
  check(t);
  if (!(share >= 0 && share <= 1))
    throw new RefusedError({
      code: 'out-of-range',
      message: `A share must lie between 0 and 1; it is ${share}.`,
      value: share,
    });
  const { least: a, likely: m, most: b } = t;
  if (a === b) return a;
  if (share <= (m - a) / (b - a)) return a + Math.sqrt(share * (b - a) * (m - a));
  return b - Math.sqrt((1 - share) * (b - a) * (b - m));
}

/**
 * Mean and variance of a triangular distribution.
 *
 *   μ = (a + m + b)/3;  σ² = (a² + m² + b² − a·m − a·b − m·b)/18
 *
 * @param t.least - a [min, or any unit that the three share], finite
 * @param t.likely - m [min, likewise], a ≤ m
 * @param t.most - b [min, likewise], m ≤ b, finite
 * @returns μ in that unit, σ² in its square
 * @throws RefusedError out-of-range where the points are not in order
 * @source moments of the triangular distribution (textbook, from memory)
 * @validity a ≤ m ≤ b
 * @example triangularMoments({ least: 0, likely: 0, most: 6 }) // mean 2, variance 2
 */
export function triangularMoments(t: Triangle): { mean: number; variance: number } {
  check(t);
  const { least: a, likely: m, most: b } = t;
  // Taken from the middle, so that nearly equal points lose no digits.
  const [x, y] = [a - m, b - m];
  return { mean: m + (x + y) / 3, variance: (x * x + y * y - x * y) / 18 };
}

function check({ least, likely, most }: Triangle): void {
  if (least <= likely && likely <= most && Number.isFinite(least) && Number.isFinite(most)) return;
  throw new RefusedError({
    code: 'out-of-range',
    message: `Least, likely and most must be finite and in order; they are ${least}, ${likely} and ${most}.`,
    value: likely,
  });
}
