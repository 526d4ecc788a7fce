import { RefusedError } from '../errors.ts';
import { atLeast } from '../tolerance.ts';

const cos30 = Math.sqrt(3) / 2;

/**
 * Width across corners of a sharp hexagon.
 *
 *   e = s / cos 30°
 *
 * @param x.acrossFlatsMm - s [mm], > 0
 * @returns e [mm]
 * @throws RefusedError out-of-range where s is not above 0
 * @source geometry; ASME B18.2.1 takes its greatest width across corners from it (hex-cap-screw-asme-b18.2.1 in data/SOURCES.md)
 * @validity a hexagon without rounding; a real corner is rounded and measures less
 * @example acrossCornersMm({ acrossFlatsMm: 16 }) // 18.4752
 */
export function acrossCornersMm(x: { acrossFlatsMm: number }): number {
  return positive(x.acrossFlatsMm, 'the width across flats') / cos30;
}

/** The factor from the least width across flats to the least width across corners, by kind of product. */
const cornerFactors = {
  /** External hexagons of ISO product grades A and B. */
  'iso-grade-a-b': 1.13,
  /** External hexagons of ASME B18.2.1. */
  'asme-external': 1.14,
  /** Hexagon sockets of ISO 4762. */
  'iso-socket': 1.14,
} as const;

export type CornerRule = keyof typeof cornerFactors;

/**
 * Least width across corners from the least width across flats.
 *
 *   e_min = 1.13 s_min (ISO grades A and B), 1.14 s_min (sockets, ASME)
 *
 * @param x.acrossFlatsMinMm - s_min [mm], > 0
 * @param x.rule - which product
 * @returns e_min [mm]
 * @throws RefusedError out-of-range where s_min is not above 0
 * @source the rule as it shows in the printed columns of ISO 4014, ISO 4032, ISO 4762 and ASME B18.2.1 (text found in
 *   reproductions; keys in data/SOURCES.md); where a table prints e_min, the print governs
 * @validity the products named; two printed values differ by one unit of their last digit (ISO 4032 M14, ASME 1/2)
 * @example acrossCornersMinMm({ acrossFlatsMinMm: 15.73, rule: 'iso-grade-a-b' }) // 17.7749
 */
export function acrossCornersMinMm(x: { acrossFlatsMinMm: number; rule: CornerRule }): number {
  return cornerFactors[x.rule] * positive(x.acrossFlatsMinMm, 'the least width across flats');
}

/**
 * How far a 6-point opening turns on a sharp hexagon from the middle of its play to where the corners bear.
 *
 *   30° − arccos(√3·S / (2·s))
 *
 * @param x.openingMm - S, opening across flats [mm], at least s
 * @param x.headMm - s, head across flats [mm], > 0
 * @returns free angle to one side [deg], 0 at S = s, 30 from S = 2s/√3 upward, where the opening turns without bearing
 * @throws RefusedError out-of-range where the opening is smaller than the head, and does not go on
 * @source geometry of two hexagons with one centre (our derivation, no printed table)
 * @validity sharp corners; real ones are rounded and let the opening turn further, so see `slips` of `fitAtLimits`
 * @example freeAngleDeg({ openingMm: 16.2, headMm: 16 }) // 1.2648
 */
export function freeAngleDeg(x: { openingMm: number; headMm: number }): number {
  const { openingMm: S, headMm: s } = x;
  positive(s, 'the head across flats');
  if (!atLeast(S, s)) {
    throw new RefusedError({
      code: 'out-of-range',
      message: `An opening of ${S} mm does not go on a head of ${s} mm across flats.`,
      value: S,
    });
  }
  const cosine = Math.min(1, (Math.sqrt(3) * S) / (2 * s));
  return Math.max(0, 30 - (Math.acos(cosine) * 180) / Math.PI);
}

/**
 * Width across flats of a heavy hex head or nut.
 *
 *   F = 1.5 D + 1/8 in
 *
 * @param x.nominalDiameterMm - D, nominal diameter [mm], 12.7 to 38.1 (1/2 to 1-1/2 in)
 * @returns F, nominal width across flats [mm]
 * @throws RefusedError out-of-range outside those diameters
 * @source ASME B18.2.1 / B18.2.2 / B18.2.6, from memory; heavy-hex-asme in data/SOURCES.md
 * @validity inch heavy hex of the sizes held; no metric structural bolt
 * @example heavyHexAcrossFlatsMm({ nominalDiameterMm: 19.05 }) // 31.75, 1-1/4 in
 */
export function heavyHexAcrossFlatsMm(x: { nominalDiameterMm: number }): number {
  const { nominalDiameterMm: D } = x;
  if (!(atLeast(D, 12.7) && atLeast(38.1, D))) {
    throw new RefusedError({
      code: 'out-of-range',
      message: `Heavy hex widths are held for diameters of 12.7 to 38.1 mm (1/2 to 1-1/2 in, ASME B18.2.1, from memory), not ${D} mm.`,
      value: D,
    });
  }
  return 1.5 * D + 25.4 / 8;
}

function positive(valueMm: number, what: string): number {
  if (Number.isFinite(valueMm) && valueMm > 0) return valueMm;
  throw new RefusedError({
    code: 'out-of-range',
    message: `${what} must be above 0 mm, not ${valueMm}.`,
    value: valueMm,
  });
}
