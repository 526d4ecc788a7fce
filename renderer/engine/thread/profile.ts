/** Diameters of the 60° screw thread profile. Lengths in mm; every formula is the same in inches. */

interface Basic {
  majorMm: number;
  pitchMm: number;
}

/**
 * Basic pitch diameter of a 60° screw thread.
 *
 *   d2 = d − 0.64951905 P
 *
 * @param x.majorMm - d, basic major diameter [mm], > 0
 * @param x.pitchMm - P, pitch [mm], 0 < P < d
 * @returns d2, basic pitch diameter, external and internal [mm]
 * @throws nothing; readThread refuses what is outside the range
 * @source ISO 68-1 basic profile, ISO 724:1993 (coarse pitch values read, reproduced to the last printed digit); ASME B1.1, the
 *   same profile
 * @validity M, UN and UNJ threads, single or multiple start
 * @example pitchDiameterMm({ majorMm: 10, pitchMm: 1.5 }) // 9.026
 */
export function pitchDiameterMm({ majorMm: d, pitchMm: P }: Basic): number {
  return d - 0.64951905 * P;
}

/**
 * Basic minor diameter of the internal 60° screw thread.
 *
 *   D1 = d − 1.08253175 P
 *
 * @param x.majorMm - d, basic major diameter [mm], > 0
 * @param x.pitchMm - P, pitch [mm], 0 < P < 0.92 d
 * @returns D1, basic minor diameter [mm]
 * @throws nothing; readThread refuses what is outside the range
 * @source ISO 68-1, ISO 724:1993; ASME B1.1, the same profile
 * @validity M and UN threads; the basic size of UNJ too, whose own limits of size are larger
 * @example minorDiameterMm({ majorMm: 10, pitchMm: 1.5 }) // 8.376
 */
export function minorDiameterMm({ majorMm: d, pitchMm: P }: Basic): number {
  return d - 1.08253175 * P;
}

/**
 * Root diameter of the external ISO metric thread, with its root rounded at H/6.
 *
 *   d3 = d − 1.22686935 P
 *
 * @param x.majorMm - d, basic major diameter [mm], > 0
 * @param x.pitchMm - P, pitch [mm], 0 < P < 0.81 d
 * @returns d3, minor diameter of the external thread [mm]
 * @throws nothing; readThread refuses what is outside the range
 * @source ISO 724:1993 (printed d3 reproduced to the last digit); ISO 898-1, clause on the stress area
 * @validity ISO metric threads M; not MJ
 * @example isoRootDiameterMm({ majorMm: 10, pitchMm: 1.5 }) // 8.160
 */
export function isoRootDiameterMm({ majorMm: d, pitchMm: P }: Basic): number {
  return d - 1.22686935 * P;
}

/**
 * Reference root diameter of the external unified thread with rounded root (UNR).
 *
 *   D − 1.190785 / n
 *
 * @param x.majorIn - D, basic major diameter [in], > 0
 * @param x.threadsPerInch - n [1/in], > 1.2 / D
 * @returns reference minor diameter of the external thread [in]
 * @throws nothing; readThread refuses what is outside the range
 * @source ASME B1.1, minor diameter of UNR external threads, as printed in a machinery handbook's UNC table (read)
 * @validity UN and UNR threads; no root is held for UNJ
 * @example unrRootDiameterIn({ majorIn: 0.5, threadsPerInch: 13 }) // 0.4084
 */
export function unrRootDiameterIn({
  majorIn: D,
  threadsPerInch: n,
}: {
  majorIn: number;
  threadsPerInch: number;
}): number {
  return D - 1.190785 / n;
}
