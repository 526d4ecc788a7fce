import { RefusedError } from '../errors.ts';
import type { BandNm, ResolvedTorque, ScaleTorque } from '../plan/resolved.ts';
import { atLeast, atMost, limitTolerance } from '../tolerance.ts';

/** A torque tool's scale and permissible deviation; of the two accuracies one is 0. */
export interface TorqueScale extends Pick<ResolvedTorque, 'minNm' | 'maxNm' | 'increment' | 'settings'> {
  /** ± share of the value set. */
  accuracyOfReading: number;
  /** ± share of the tool's maximum. */
  accuracyOfFullScale?: number;
}

/**
 * The torque at the fastener while a value is set, over the tool's permissible deviation.
 *
 *   (S·(1 ± a) ± b·Smax) / c
 *
 * @param x.scale - a: accuracy of reading; b: of full scale; Smax [N·m]
 * @param x.setNm - S, the value set [N·m], ≥ 0
 * @param x.correction - c, set ÷ applied, > 0; 1 without an offset head
 * @returns the band [N·m]
 * @throws nothing
 * @source definition of a permissible deviation; "range and accuracy apply to the value set" (design rule)
 * @validity click, dial and electronic tools within their range
 * @example 25 N·m, ± 4 % of reading, no offset head: 24 to 26 N·m
 */
export function appliedBand(x: { scale: TorqueScale; setNm: number; correction: number }): BandNm {
  const { accuracyOfReading: a, accuracyOfFullScale: b = 0, maxNm } = x.scale;
  return {
    minNm: (x.setNm * (1 - a) - b * maxNm) / x.correction,
    maxNm: (x.setNm * (1 + a) + b * maxNm) / x.correction,
  };
}

/** The least value that may be set: the tool's minimum, or the project's least share of its maximum. */
function lowestNm(scale: TorqueScale, rangeShareMin: number): number {
  return Math.max(scale.minNm, rangeShareMin * scale.maxNm);
}

/**
 * Which multiples of its increment a tool has in its range.
 *
 *   first = ⌈max(Smin, s·Smax)/i⌉, at least 1; last = ⌊Smax/i⌋
 *
 * @param scale - Smin, Smax, i [N·m]
 * @param rangeShareMin - s, least share of the maximum, 0 to 1
 * @returns both counts; null where there is no multiple in the range, or no increment
 * @throws nothing
 * @source the contract's rule 6
 * @validity ends of the range within 1e-9, relative
 * @example 10 to 50 N·m by 0.5 N·m: 20 to 100
 */
export function multiplesInRange(scale: TorqueScale, rangeShareMin: number): { first: number; last: number } | null {
  const { increment } = scale;
  if (increment === null) return null;
  const first = Math.max(1, Math.ceil((lowestNm(scale, rangeShareMin) / increment.nm) * (1 - limitTolerance)));
  const last = Math.floor((scale.maxNm / increment.nm) * (1 + limitTolerance));
  return first > last ? null : { first, last };
}

/**
 * The named settings that lie in the range.
 *
 *   max(Smin, s·Smax) ≤ S ≤ Smax
 *
 * @param scale - Smin, Smax and the settings [N·m]
 * @param rangeShareMin - s, least share of the maximum, 0 to 1
 * @returns those in the range, in the order given
 * @throws nothing
 * @source the contract's rule 6
 * @validity ends of the range within 1e-9, relative
 * @example settings 5, 20 and 60 N·m of a tool of 10 to 50 N·m: 20 N·m
 */
export function namedInRange(scale: TorqueScale, rangeShareMin: number): ScaleTorque[] {
  const lowest = lowestNm(scale, rangeShareMin);
  return (scale.settings ?? []).filter(({ nm }) => atLeast(nm, lowest) && atMost(nm, scale.maxNm));
}

/**
 * The n-th mark of a scale.
 *
 *   S = n·i, in decimal: 3 × 0.1 is 0.3 on a scale, though the double product's last bit is not
 *
 * @param increment - i, in its unit and in N·m
 * @param n - count of marks, whole, ≥ 1
 * @returns the mark, in the same unit and in N·m
 * @throws nothing
 * @source definition
 * @validity increments of at most 15 digits
 * @example multipleOf({ value: 0.1, unit: 'N·m', nm: 0.1 }, 3).value // 0.3
 */
export function multipleOf(increment: ScaleTorque, n: number): ScaleTorque {
  return { value: Number((increment.value * n).toPrecision(15)), unit: increment.unit, nm: increment.nm * n };
}

/** Far more marks than any scale has; each is looked at. */
const settingsMost = 200_000;

/**
 * Every setting in the range.
 *
 *   multiplesInRange or namedInRange
 *
 * @param scale - the tool's scale [N·m]
 * @param rangeShareMin - least share of the maximum, 0 to 1
 * @returns the settings, lowest first
 * @throws RefusedError out-of-range where the scale has too many marks to look at one by one
 * @source the contract's rule 6
 * @validity ends of the range within 1e-9, relative
 * @example 10 to 11 N·m by 0.5 N·m: 10, 10.5 and 11 N·m
 */
export function possibleSettings(scale: TorqueScale, rangeShareMin: number): ScaleTorque[] {
  const { increment } = scale;
  if (scale.settings !== null || increment === null)
    return namedInRange(scale, rangeShareMin).toSorted((a, b) => a.nm - b.nm);
  const range = multiplesInRange(scale, rangeShareMin);
  if (range === null) return [];
  const count = range.last - range.first + 1;
  if (count > settingsMost) {
    throw new RefusedError({
      code: 'out-of-range',
      message: `the scale has ${count} marks in its range; at most ${settingsMost} are looked at one by one`,
    });
  }
  return Array.from({ length: count }, (_, index) => multipleOf(increment, range.first + index));
}
