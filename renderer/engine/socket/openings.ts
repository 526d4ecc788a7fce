import type { Citation } from '../../../shared-types/handbook.ts';
import { RefusedError } from '../errors.ts';
import { openingTables } from '../handbook/openings.ts';
import { mmOfPrintedInches } from '../handbook/printed.ts';
import { citationOf } from '../handbook/rows.ts';
import { atLeast } from '../tolerance.ts';
import { sameNominalMm } from './sameNominal.ts';

const mmPerInch = 25.4;

/** The sizes the appendix prints [in]. */
const openingRangeIn = { min: 5 / 32, max: 3.125 };

const appendix = openingTables['wrench-openings-asme-b18.2.2'];

export interface OpeningLimits {
  /** As printed, in inches: "9/16". */
  nominal: string;
  nominalMm: number;
  minMm: number;
  maxMm: number;
  citation: Citation;
}

/** Every opening whose limits are held, smallest first: inch sizes of hexagon openings. */
export const heldOpenings: readonly OpeningLimits[] = appendix.rows.map((row) => ({
  nominal: row.nominal,
  nominalMm: mmOfPrintedInches(row.nominal_in),
  minMm: mmOfPrintedInches(row.opening_min_in),
  maxMm: mmOfPrintedInches(row.opening_max_in),
  citation: citationOf(appendix),
}));

/**
 * Published limits of a hexagon wrench opening, as printed.
 *
 * @param x.nominalMm - nominal size of the opening [mm]; 5/8 in is 15.875
 * @returns its limits [mm] with their source; null where none is held: metric openings (ISO 691) and every inch size
 *   that the appendix does not print. Sizes between printed rows are not filled in.
 * @throws nothing; what is not held is null
 * @source ASME B18.2.2 appendix, wrench openings; wrench-openings-asme-b18.2.2 in data/SOURCES.md; text found in reproductions
 * @validity inch hexagon openings of 5/32 to 3-1/8 in; a nominal size matches within 0.01 mm
 * @example openingLimits({ nominalMm: 15.875 }) // min 15.9766, max 16.1544
 */
export function openingLimits(x: { nominalMm: number }): OpeningLimits | null {
  return heldOpenings.find((opening) => sameNominalMm(opening.nominalMm, x.nominalMm)) ?? null;
}

/**
 * Limits of an inch opening by the appendix's own formula. The printed table governs where a size is printed.
 *
 *   minimum 1.005 W + 0.001 in, tolerance 0.005 W + 0.004 in
 *
 * @param x.widthIn - W, nominal width across flats [in], 5/32 to 3-1/8
 * @returns least and greatest opening [mm]
 * @throws RefusedError out-of-range outside the sizes the appendix prints
 * @source ASME B18.2.2 appendix, wrench openings; wrench-openings-asme-b18.2.2 in data/SOURCES.md; text found in reproductions
 * @validity inch openings only; the print differs by up to 0.002 in
 * @example openingByFormula({ widthIn: 1 }) // min 25.5524 (1.006 in), max 25.781 (1.015 in)
 */
export function openingByFormula(x: { widthIn: number }): { minMm: number; maxMm: number } {
  const { widthIn: W } = x;
  if (!(atLeast(W, openingRangeIn.min) && atLeast(openingRangeIn.max, W))) {
    throw new RefusedError({
      code: 'out-of-range',
      message: `The appendix of ASME B18.2.2 gives wrench openings of 5/32 to 3-1/8 in, not ${W} in.`,
      value: W,
    });
  }
  const minIn = 1.005 * W + 0.001;
  return { minMm: minIn * mmPerInch, maxMm: (minIn + 0.005 * W + 0.004) * mmPerInch };
}
