import { atLeast } from '../tolerance.ts';

/** Tolerances of unified threads, in inches, as ASME B1.1 writes its formulas. */

const externalClasses = ['2A', '3A'] as const;
const internalClasses = ['2B', '3B'] as const;
export type ExternalClass = (typeof externalClasses)[number];
export type InternalClass = (typeof internalClasses)[number];

interface Basic {
  majorIn: number;
  threadsPerInch: number;
}

/** Below it the minor diameter of class 2B has the tolerance of class 3B, with a floor of its own. */
const smallestLargeIn = 0.25;

/**
 * Tolerance of the pitch diameter of class 2A, from which those of the other classes follow.
 *
 *   Td2(2A) = 0.0015 D^⅓ + 0.0015 √Le + 0.015 P^⅔
 *
 * @param x.majorIn - D, basic major diameter [in], 0.06 to 6
 * @param x.threadsPerInch - n = 1/P [1/in], > 0
 * @param x.engagementIn - Le, length of engagement [in]: D for UNC and UNF, 9 P for constant-pitch series
 * @returns Td2(2A) [in]
 * @throws nothing; limitsOfSize refuses threads without these tolerances
 * @source ASME B1.1, pitch diameter tolerances (from memory; published shear areas reproduced within 1.5 %)
 * @validity unified threads; lengths of engagement to 1.5 D, or 5 P to 15 P (memory)
 * @example pitchTolerance2AIn({ majorIn: 0.5, threadsPerInch: 13, engagementIn: 0.5 }) // 0.0050
 */
export function pitchTolerance2AIn(x: Basic & { engagementIn: number }): number {
  const P = 1 / x.threadsPerInch;
  return 0.0015 * Math.cbrt(x.majorIn) + 0.0015 * Math.sqrt(x.engagementIn) + 0.015 * Math.cbrt(P * P);
}

/**
 * Tolerance of the minor diameter of an internal unified thread.
 *
 *   3B:           0.05 P^⅔ + 0.03 P/D − 0.002, at least 0.23 P − 1.5 P² (n ≥ 13) or 0.12 P (n < 13), at most 0.394 P
 *   2B, D < 1/4:  0.05 P^⅔ + 0.03 P/D − 0.002, at least 0.25 P − 0.4 P², at most 0.394 P
 *   2B, D ≥ 1/4:  0.25 P − 0.4 P² (n ≥ 4), 0.15 P (n < 4)
 *
 * @param x.majorIn - D, basic major diameter [in], 0.06 to 6
 * @param x.threadsPerInch - n = 1/P [1/in], > 0
 * @param x.internalClass - 2B or 3B
 * @returns TD1 [in]
 * @throws nothing; limitsOfSize refuses threads without these tolerances
 * @source ASME B1.1, minor diameter tolerances of internal threads (from memory; published shear areas reproduced within 1.5 %)
 * @validity unified threads of UN profile; UNJ has larger minor diameters of its own
 * @example minorToleranceIn({ majorIn: 0.5, threadsPerInch: 13, internalClass: '2B' }) // 0.01686
 */
export function minorToleranceIn(x: Basic & { internalClass: InternalClass }): number {
  const { majorIn: D, threadsPerInch: n } = x;
  const P = 1 / n;
  const linear = 0.25 * P - 0.4 * P * P;
  if (x.internalClass === '2B' && atLeast(D, smallestLargeIn)) return n < 4 ? 0.15 * P : linear;
  const floor = x.internalClass === '2B' ? linear : n >= 13 ? 0.23 * P - 1.5 * P * P : 0.12 * P;
  return Math.min(0.394 * P, Math.max(floor, 0.05 * Math.cbrt(P * P) + (0.03 * P) / D - 0.002));
}

/**
 * Every tolerance and the allowance of a pair of unified threads.
 *
 *   Td2: 2A as its formula, 3A 0.75 of it; TD2: 2B 1.3, 3B 0.975 of Td2(2A); es = 0.3 Td2(2A), 3A 0; Td = 0.06 P^⅔
 *
 * @param x.majorIn - D, basic major diameter [in], 0.06 to 6
 * @param x.threadsPerInch - n = 1/P [1/in], > 0
 * @param x.engagementIn - Le, length of engagement in the formula of Td2 [in]
 * @param x.externalClass - 2A or 3A
 * @param x.internalClass - 2B or 3B
 * @returns es, Td2, Td, TD2 and TD1 [in]
 * @throws nothing; limitsOfSize refuses threads without these tolerances
 * @source ASME B1.1 (from memory; published shear areas reproduced within 1.5 %)
 * @validity as pitchTolerance2AIn and minorToleranceIn
 * @example tolerancesIn({ majorIn: 0.5, threadsPerInch: 13, engagementIn: 0.5, externalClass: '3A', internalClass: '3B' }).allowance // 0
 */
export function tolerancesIn(
  x: Basic & { engagementIn: number; externalClass: ExternalClass; internalClass: InternalClass },
): { allowance: number; pitchExternal: number; majorExternal: number; pitchInternal: number; minorInternal: number } {
  const Td2 = pitchTolerance2AIn(x);
  const P = 1 / x.threadsPerInch;
  return {
    allowance: x.externalClass === '2A' ? 0.3 * Td2 : 0,
    pitchExternal: x.externalClass === '2A' ? Td2 : 0.75 * Td2,
    majorExternal: 0.06 * Math.cbrt(P * P),
    pitchInternal: (x.internalClass === '2B' ? 1.3 : 0.975) * Td2,
    minorInternal: minorToleranceIn(x),
  };
}
