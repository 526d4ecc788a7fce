import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** A stream of random numbers: the same seed gives the same stream, on every machine. */
export interface Draws {
  /** At least 0, below 1. */
  uniform: () => number;
  /** Of mean 0 and standard deviation 1. */
  normal: () => number;
}

/**
 * Random numbers of a seed.
 *
 *   normal: √(−2·ln u1)·cos(2π·u2), one of each pair
 *
 * @param seed - whole number, 0 to 2³¹ − 1
 * @returns a stream of its own
 * @throws nothing
 * @source generator xoroshiro128+ of the package pure-rand; normal deviates after Box and Muller (from memory)
 * @validity simulation; no secrets
 * @example drawsOf(7).uniform() // the same number every time
 */
export function drawsOf(seed: number): Draws {
  const generator = xoroshiro128plus(seed);
  const uniform = (): number => uniformFloat64(generator);
  return {
    uniform,
    // 1 − u is above 0, so that its logarithm is finite.
    normal: () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()),
  };
}
