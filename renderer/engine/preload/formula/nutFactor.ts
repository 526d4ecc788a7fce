import { demand } from './demand.ts';

/**
 * Torque for a preload by the nut factor, which holds thread, friction and bearing face in one number.
 *
 *   T = K·D·F
 *
 * @param x.nutFactor - K, > 0; published 0.11 to 0.30
 * @param x.diameterMm - D, nominal diameter [mm], > 0
 * @param x.preloadN - F, preload [N], ≥ 0
 * @returns T, seating torque [N·m], without running torque
 * @throws RefusedError out-of-range, not-finite
 * @source Mechanical engineering design textbook, 9th ed., eq. 8-27; NASA TM-106943 (1995), text (both read)
 * @validity the surfaces, lubricant and speed the nut factor was found for
 * @example nutFactorTorqueNm({ nutFactor: 0.2, diameterMm: 10, preloadN: 20000 }) // 40
 */
export function nutFactorTorqueNm(x: { nutFactor: number; diameterMm: number; preloadN: number }): number {
  const { nutFactor: K, diameterMm: D, preloadN: F } = x;
  demand(K > 0, 'nut factor', K, 'more than 0');
  demand(D > 0, 'diameter of the nut factor', D, 'more than 0 mm');
  demand(F >= 0, 'preload', F, '0 N or more');
  return (K * D * F) / 1000;
}

/**
 * Preload a torque gives by the nut factor: the same formula the other way.
 *
 *   F = T/(K·D)
 *
 * @param x.nutFactor - K, > 0
 * @param x.diameterMm - D, nominal diameter [mm], > 0
 * @param x.torqueNm - T, seating torque [N·m], ≥ 0, without running torque
 * @returns F, preload [N]
 * @throws RefusedError out-of-range, not-finite
 * @source as nutFactorTorqueNm
 * @validity as nutFactorTorqueNm
 * @example nutFactorPreloadN({ nutFactor: 0.2, diameterMm: 10, torqueNm: 40 }) // 20000
 */
export function nutFactorPreloadN(x: { nutFactor: number; diameterMm: number; torqueNm: number }): number {
  demand(x.torqueNm >= 0, 'seating torque', x.torqueNm, '0 N·m or more');
  return x.torqueNm / nutFactorTorqueNm({ nutFactor: x.nutFactor, diameterMm: x.diameterMm, preloadN: 1 });
}

/**
 * The nut factor that a torque and the preload it gives amount to.
 *
 *   K = T/(D·F)
 *
 * @param x.torqueNm - T, seating torque [N·m]
 * @param x.diameterMm - D, nominal diameter [mm], > 0
 * @param x.preloadN - F, preload [N], > 0
 * @returns K
 * @throws RefusedError out-of-range, not-finite
 * @source definition of the nut factor, as nutFactorTorqueNm
 * @validity any fastener
 * @example effectiveNutFactor({ torqueNm: 40, diameterMm: 10, preloadN: 20000 }) // 0.2
 */
export function effectiveNutFactor(x: { torqueNm: number; diameterMm: number; preloadN: number }): number {
  demand(x.diameterMm > 0, 'diameter of the nut factor', x.diameterMm, 'more than 0 mm');
  demand(x.preloadN > 0, 'preload', x.preloadN, 'more than 0 N');
  return (1000 * x.torqueNm) / (x.diameterMm * x.preloadN);
}
