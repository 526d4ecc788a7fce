import { RefusedError } from '../errors.ts';

/** From here on the tail's continued fraction holds all digits of a double; nearer to 0 the series does. */
const tailFrom = 2;
/** Terms of the continued fraction: at 2 already more than doubles can tell apart. */
const tailDepth = 150;
/** Beyond it Φ(−z) is below the least double. */
const farthest = 38;

/**
 * Standard normal distribution function.
 *
 *   Φ(z) = 1/2 + φ(z)·(z + z³/3 + z⁵/(3·5) + z⁷/(3·5·7) + …)   for |z| < 2
 *   1 − Φ(z) = φ(z)/(z + 1/(z + 2/(z + 3/(z + …))))             beyond
 *
 * @param z - deviate, any number but NaN
 * @returns Φ(z), 0 to 1; in the middle to 1e-15 absolute, in the tail below −2 to 1e-13 relative
 * @throws RefusedError not-finite for NaN
 * @source series and continued fraction of the normal integral (from memory); held against printed tables and an error function
 *   computed elsewhere in tests/validation/standardNormal.test.ts
 * @validity every z
 * @example standardNormalCdf(1.96) // 0.9750021
 */
export function standardNormalCdf(z: number): number {
  if (Number.isNaN(z))
    throw new RefusedError({ code: 'not-finite', message: 'NaN is no deviate of a distribution.', value: z });
  if (z <= -tailFrom) return upperTail(-z);
  if (z >= tailFrom) return 1 - upperTail(z);
  let term = z;
  let sum = z;
  for (let odd = 3; Math.abs(term) > Number.EPSILON * Math.abs(sum); odd += 2) {
    term *= (z * z) / odd;
    sum += term;
  }
  return 0.5 + density(z) * sum;
}

/**
 * The deviate below which a share of a standard normal distribution lies.
 *
 *   z with Φ(z) = p, found by halving
 *
 * @param p - share, 0 < p < 1
 * @returns z
 * @throws RefusedError out-of-range where p is not between 0 and 1
 * @source inverse of standardNormalCdf
 * @validity 0 < p < 1; near 1 as far as a double tells p from 1
 * @example standardNormalQuantile(0.975) // 1.959964
 */
export function standardNormalQuantile(p: number): number {
  if (!(p > 0 && p < 1))
    throw new RefusedError({
      code: 'out-of-range',
      message: `A share must lie between 0 and 1; it is ${p}.`,
      value: p,
    });
  if (p > 0.5) return -standardNormalQuantile(1 - p);
  let low = -farthest;
  let high = 0;
  for (let middle = (low + high) / 2; middle > low && middle < high; middle = (low + high) / 2) {
    if (standardNormalCdf(middle) < p) low = middle;
    else high = middle;
  }
  return high;
}

function density(z: number): number {
  return Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
}

function upperTail(z: number): number {
  if (z > farthest) return 0;
  let fraction = z;
  for (let k = tailDepth; k >= 1; k -= 1) fraction = z + k / fraction;
  return density(z) / fraction;
}
