import { demand } from './demand.ts';

/**
 * Share of the work put in that stretches the bolt.
 *
 *   e = F·lead/(2π·T)
 *
 * @param x.preloadN - F [N]
 * @param x.leadMm - lead [mm], > 0
 * @param x.torqueNm - T, seating torque with its bearing part [N·m], > 0
 * @returns e, 0 to 1; about 0.1 for fasteners
 * @throws RefusedError out-of-range, not-finite
 * @source mechanical engineering design textbook, eq. 8-4 (read)
 * @validity any screw
 * @example screwEfficiency({ preloadN: 6000, leadMm: 5, torqueNm: 16.233 }) // 0.294
 */
export function screwEfficiency(x: { preloadN: number; leadMm: number; torqueNm: number }): number {
  demand(x.leadMm > 0, 'lead', x.leadMm, 'more than 0 mm');
  demand(x.torqueNm > 0, 'torque', x.torqueNm, 'more than 0 N·m');
  return (x.preloadN * x.leadMm) / (2 * Math.PI * 1000 * x.torqueNm);
}

/**
 * How far a loaded length of bolt stretches.
 *
 *   δ = F·L/(A·E)
 *
 * @param x.preloadN - F [N]
 * @param x.lengthMm - L, loaded length [mm], ≥ 0
 * @param x.areaMm2 - A, its section [mm²], > 0
 * @param x.modulusMPa - E, modulus of elasticity [MPa], > 0
 * @returns δ [mm]
 * @throws RefusedError out-of-range, not-finite
 * @source Hooke's law; textbook on fastening, 2nd ed., page 88 (read)
 * @validity one section all along, below yield
 * @example elongationMm({ preloadN: 29600, lengthMm: 40, areaMm2: 58, modulusMPa: 205000 }) // 0.09958
 */
export function elongationMm(x: { preloadN: number; lengthMm: number; areaMm2: number; modulusMPa: number }): number {
  demand(x.lengthMm >= 0, 'loaded length', x.lengthMm, '0 mm or more');
  demand(x.areaMm2 > 0, 'section', x.areaMm2, 'more than 0 mm²');
  demand(x.modulusMPa > 0, 'modulus of elasticity', x.modulusMPa, 'more than 0 MPa');
  return (x.preloadN * x.lengthMm) / (x.areaMm2 * x.modulusMPa);
}
