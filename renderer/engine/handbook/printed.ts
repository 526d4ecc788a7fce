/**
 * Inches as printed in millimetres, the nearest double to the exact value: a printed .316 is 8.0264 and not 8.026399999999999.
 *
 *   1 in = 25.4 mm
 *
 * @param inches - a printed decimal of at most six places [in]
 * @returns [mm]
 * @source the exact definition of the inch
 * @example mmOfPrintedInches(0.316) // 8.0264
 */
export function mmOfPrintedInches(inches: number): number {
  return (Math.round(inches * 1e6) * 254) / 1e7;
}
