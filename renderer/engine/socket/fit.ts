import type { Citation } from '../../../shared-types/handbook.ts';
import type { HeadForm, OpeningForm } from '../../../shared-types/plan.ts';
import { RefusedError } from '../errors.ts';
import { atLeast } from '../tolerance.ts';
import { headLimits, type HeadThread } from './heads.ts';
import { freeAngleDeg } from './hexagon.ts';
import { openingFormsFor } from './openingForms.ts';
import { openingLimits } from './openings.ts';

export interface LimitsFit {
  headMaxMm: number;
  headMinMm: number;
  openingMinMm: number;
  openingMaxMm: number;
  /** Least opening less greatest head: below 0 it does not go on every good head. */
  clearanceMm: number;
  /** Greatest opening less least head. */
  clearanceMaxMm: number;
  goesOn: boolean;
  /** How far a 6-point opening turns before the corners bear, over the pairs that go on; null for other forms. */
  freeAngleDeg: { min: number; max: number } | null;
  /** Whether the loosest pair turns over the corners; null where no least width across corners is held. */
  slips: boolean | null;
}

export type Fit = LimitsFit & { sources: Citation[] };
export type FitAnswer = { fit: Fit; reason: null } | { fit: null; reason: string };

/**
 * Fit of a hexagon opening on a hexagon head from the limits of both.
 *
 *   goes on: S_min ≥ s_max; clearance S_min − s_max; slips: S_max ≥ e_min
 *   free angle: least at S_min on s_max, greatest at S_max on s_min
 *
 * @param x.head - s_max, s_min [mm], and e_min [mm] where it is held
 * @param x.opening - S_min, S_max [mm]
 * @param x.openingForm - the free angle and slipping are judged for hex6 alone
 * @returns the fit; where the two ranges overlap, the least free angle is 0, of the pair that just goes on
 * @throws RefusedError contradiction where a minimum is above its maximum, out-of-range where one is not above 0
 * @source "goes on": ASME B18.2.2 appendix, whose least opening clears the greatest head; free angle and slipping: geometry
 *   (our derivation). Slipping is already said at S_max ≥ e_min because real corners are rounded.
 * @validity hexagon heads in 6- and 12-point openings
 * @example fitAtLimits({ head: { maxMm: 8, minMm: 7.78, cornersMinMm: 8.79 }, opening: { minMm: 8.0264, maxMm: 8.1788 }, openingForm: 'hex6' })
 *   // goesOn true, clearanceMm 0.0264, slips false
 */
export function fitAtLimits(x: {
  head: { maxMm: number; minMm: number; cornersMinMm: number | null };
  opening: { minMm: number; maxMm: number };
  openingForm: OpeningForm;
}): LimitsFit {
  const { head, opening } = x;
  refuseInverted('head', head.minMm, head.maxMm);
  refuseInverted('opening', opening.minMm, opening.maxMm);
  const sixPoint = x.openingForm === 'hex6';
  return {
    headMaxMm: head.maxMm,
    headMinMm: head.minMm,
    openingMinMm: opening.minMm,
    openingMaxMm: opening.maxMm,
    clearanceMm: opening.minMm - head.maxMm,
    clearanceMaxMm: opening.maxMm - head.minMm,
    goesOn: atLeast(opening.minMm, head.maxMm),
    freeAngleDeg: sixPoint && atLeast(opening.maxMm, head.minMm) ? freeAngles(head, opening) : null,
    slips: sixPoint && head.cornersMinMm !== null ? atLeast(opening.maxMm, head.cornersMinMm) : null,
  };
}

/**
 * Fit of a nominal opening on a nominal head, from published limits of both.
 *
 * @param x.headForm - form of the head
 * @param x.acrossFlatsMm - nominal width across flats of the head [mm]
 * @param x.thread - system and nominal diameter, where known: some widths have other limits on a nut than on a bolt
 * @param x.openingForm - form of the opening
 * @param x.openingMm - nominal size of the opening [mm]; it need not be the head's
 * @returns the fit with both sources; or no fit, with the reason: the form does not act on the head, or no published value is held
 * @throws nothing; what is not held comes back as the reason
 * @source ISO 4014, ISO 4032, ASME B18.2.1 for heads; ASME B18.2.2 appendix for openings; keys in data/SOURCES.md
 * @validity inch openings on ISO and ASME hexagons; limits of metric openings (ISO 691) and of keys are not held
 * @example fitOf({ headForm: 'hex', acrossFlatsMm: 16, openingForm: 'hex6', openingMm: 15.875 }).fit?.goesOn // false
 */
export function fitOf(x: {
  headForm: HeadForm;
  acrossFlatsMm: number;
  thread?: HeadThread;
  openingForm: OpeningForm;
  openingMm: number;
}): FitAnswer {
  if (!openingFormsFor(x.headForm).includes(x.openingForm)) {
    return { fit: null, reason: `a ${x.openingForm} opening does not act on a ${x.headForm} head` };
  }
  const head = headLimits(x);
  if (head === null) {
    const size = `${x.acrossFlatsMm} mm across flats`;
    return { fit: null, reason: `no published value held: limits of a ${x.headForm} head ${size}` };
  }
  const isHexagon = x.openingForm === 'hex6' || x.openingForm === 'hex12';
  const opening = isHexagon ? openingLimits({ nominalMm: x.openingMm }) : null;
  if (opening === null) {
    return { fit: null, reason: `no published value held: limits of a ${x.openingForm} opening of ${x.openingMm} mm` };
  }
  const limits = fitAtLimits({
    head: {
      maxMm: head.acrossFlatsMaxMm,
      minMm: head.acrossFlatsMinMm,
      cornersMinMm: head.acrossCornersMinMm,
    },
    opening,
    openingForm: x.openingForm,
  });
  return { fit: { ...limits, sources: [head.citation, opening.citation] }, reason: null };
}

function freeAngles(
  head: { maxMm: number; minMm: number },
  opening: { minMm: number; maxMm: number },
): { min: number; max: number } {
  const everyPairGoesOn = atLeast(opening.minMm, head.maxMm);
  return {
    min: everyPairGoesOn ? freeAngleDeg({ openingMm: opening.minMm, headMm: head.maxMm }) : 0,
    max: freeAngleDeg({ openingMm: opening.maxMm, headMm: head.minMm }),
  };
}

function refuseInverted(what: string, minMm: number, maxMm: number): void {
  if (!(Number.isFinite(minMm) && Number.isFinite(maxMm) && minMm > 0)) {
    throw new RefusedError({
      code: 'out-of-range',
      message: `The ${what}'s limits must be above 0 mm: ${minMm} to ${maxMm}.`,
    });
  }
  if (minMm > maxMm) {
    throw new RefusedError({
      code: 'contradiction',
      message: `The ${what}'s minimum ${minMm} mm is above its maximum ${maxMm} mm.`,
    });
  }
}
