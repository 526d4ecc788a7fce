/**
 * Tensile stress area of the ISO metric thread.
 *
 *   As = π/4 · ((d2 + d3)/2)²
 *
 * @param x.pitchDiameterMm - d2, basic pitch diameter [mm]
 * @param x.rootDiameterMm - d3, root diameter of the external thread [mm]
 * @returns As, nominal stress area [mm²]; the standard's tables print it to three digits
 * @throws nothing; readThread refuses what is outside the range
 * @source ISO 898-1:1999 and 2013, clause on the stress area and load tables (values read in reproductions)
 * @validity ISO metric threads M
 * @example metricStressAreaMm2({ pitchDiameterMm: 9.0257, rootDiameterMm: 8.1597 }) // 57.99
 */
export function metricStressAreaMm2(x: { pitchDiameterMm: number; rootDiameterMm: number }): number {
  return (Math.PI / 4) * ((x.pitchDiameterMm + x.rootDiameterMm) / 2) ** 2;
}

/**
 * Tensile stress area of the unified thread.
 *
 *   At = π/4 · (D − 0.9743/n)²
 *
 * @param x.majorIn - D, basic major diameter [in], > 0
 * @param x.threadsPerInch - n [1/in], > 0.98 / D
 * @returns At, tensile stress area [in²]
 * @throws nothing; readThread refuses what is outside the range
 * @source ASME B1.1, appendix on stress area; table of a machine design textbook after ANSI B1.1-1974 (values read)
 * @validity UN, UNR and UNJ threads of steel up to 180 000 psi (memory)
 * @example unifiedStressAreaIn2({ majorIn: 0.5, threadsPerInch: 13 }) // 0.1419
 */
export function unifiedStressAreaIn2({
  majorIn: D,
  threadsPerInch: n,
}: {
  majorIn: number;
  threadsPerInch: number;
}): number {
  return (Math.PI / 4) * (D - 0.9743 / n) ** 2;
}
