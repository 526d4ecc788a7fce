import { RefusedError } from '../errors.ts';
import { standardNormalQuantile } from './normal.ts';

/**
 * Interval for a share that was estimated from independent trials (Wilson score).
 *
 *   (p̂ + z²/2n ± z·√(p̂(1 − p̂)/n + z²/4n²)) / (1 + z²/n),  p̂ = hits/n
 *
 * @param x.hits - trials that came out, whole, 0 to `trials`
 * @param x.trials - n, whole, > 0
 * @param x.confidence - two-sided, 0 < confidence < 1
 * @returns both ends, 0 to 1
 * @throws RefusedError out-of-range
 * @source Wilson's score interval (from memory)
 * @validity independent trials
 * @example wilsonInterval({ hits: 95, trials: 100, confidence: 0.95 }) // 0.8882 to 0.9785
 */
export function wilsonInterval(x: { hits: number; trials: number; confidence: number }): { low: number; high: number } {
  const { hits, trials: n, confidence } = x;
  if (!Number.isInteger(n) || n < 1 || !Number.isInteger(hits) || hits < 0 || hits > n)
    throw new RefusedError({
      code: 'out-of-range',
      message: `${hits} of ${n} trials is no share of them.`,
      value: hits,
    });
  const z = standardNormalQuantile((1 + confidence) / 2);
  const share = hits / n;
  const middle = share + (z * z) / (2 * n);
  const half = z * Math.sqrt((share * (1 - share)) / n + (z * z) / (4 * n * n));
  const scale = 1 + (z * z) / n;
  return { low: Math.max(0, (middle - half) / scale), high: Math.min(1, (middle + half) / scale) };
}
