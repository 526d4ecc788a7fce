import { demand } from './demand.ts';

/** How settling is taken off the preload: NASA TM-106943 divides by 1 + s, NASA-STD-5020 multiplies by 1 − s. */
export type RelaxationForm = 'divide' | 'multiply';

/**
 * Least preload left after scatter, thermal loss and settling.
 *
 *   divide:   ((1 − u)·F − L)/(1 + s)
 *   multiply: (1 − u)·F·(1 − s) − L
 *
 * @param x.preloadN - F, preload before all losses [N], ≥ 0
 * @param x.scatter - u, scatter as a share of the preload, 0 ≤ u < 1
 * @param x.lossN - L, preload lost to temperature [N], ≥ 0
 * @param x.relaxation - s, share lost by settling, 0 ≤ s < 1
 * @param x.form - divide or multiply
 * @returns least preload [N]; below 0 the joint is open, and the number says by how much
 * @throws RefusedError out-of-range, not-finite
 * @source divide: NASA TM-106943 (1995), preload range (read); multiply: NASA-STD-5020 (from memory)
 * @validity joints that do not yield; the two forms differ by s² of the preload
 * @example leastPreloadN({ preloadN: 2011, scatter: 0.25, lossN: 0, relaxation: 0.05, form: 'divide' }) // 1436.43
 */
export function leastPreloadN(x: {
  preloadN: number;
  scatter: number;
  lossN: number;
  relaxation: number;
  form: RelaxationForm;
}): number {
  const { preloadN: F, scatter: u, lossN: L, relaxation: s } = x;
  demand(F >= 0, 'preload', F, '0 N or more');
  demand(u >= 0 && u < 1, 'scatter', u, '0 to below 1');
  demand(L >= 0, 'thermal loss', L, '0 N or more');
  demand(s >= 0 && s < 1, 'share lost by settling', s, '0 to below 1');
  return x.form === 'divide' ? ((1 - u) * F - L) / (1 + s) : (1 - u) * F * (1 - s) - L;
}

/**
 * Greatest preload with scatter and thermal gain.
 *
 *   (1 + u)·F + gain
 *
 * @param x.preloadN - F, preload [N], ≥ 0
 * @param x.scatter - u, scatter as a share of the preload, 0 ≤ u < 1
 * @param x.gainN - preload gained from temperature [N], ≥ 0
 * @returns greatest preload [N]; settling is not taken off it
 * @throws RefusedError out-of-range, not-finite
 * @source NASA TM-106943 (1995), preload range (read)
 * @validity joints that do not yield
 * @example greatestPreloadN({ preloadN: 2011, scatter: 0.25, gainN: 0 }) // 2513.75
 */
export function greatestPreloadN(x: { preloadN: number; scatter: number; gainN: number }): number {
  demand(x.preloadN >= 0, 'preload', x.preloadN, '0 N or more');
  demand(x.scatter >= 0 && x.scatter < 1, 'scatter', x.scatter, '0 to below 1');
  demand(x.gainN >= 0, 'thermal gain', x.gainN, '0 N or more');
  return (1 + x.scatter) * x.preloadN + x.gainN;
}

/**
 * Scatter of the mean preload of several bolts, where one loose bolt does no harm by itself.
 *
 *   u/√n
 *
 * @param x.scatter - u of one bolt, 0 ≤ u < 1
 * @param x.bolts - n, bolts that share the load, a whole number of at least 1
 * @returns scatter of the least preload
 * @throws RefusedError out-of-range, not-finite
 * @source NASA-STD-5020 (from memory)
 * @validity joints whose separation is not critical, at the least preload only
 * @example scatterOfSeveral({ scatter: 0.25, bolts: 4 }) // 0.125
 */
export function scatterOfSeveral({ scatter, bolts }: { scatter: number; bolts: number }): number {
  demand(scatter >= 0 && scatter < 1, 'scatter', scatter, '0 to below 1');
  demand(Number.isInteger(bolts) && bolts >= 1, 'number of bolts', bolts, 'a whole number of at least 1');
  return scatter / Math.sqrt(bolts);
}
