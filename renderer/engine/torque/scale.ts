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

/** Which multiples of its increment a tool has in its range; null where it has none. */
export function multiplesInRange(scale: TorqueScale, rangeShareMin: number): { first: number; last: number } | null {
  const { increment } = scale;
  if (increment === null) return null;
  const first = Math.max(1, Math.ceil((lowestNm(scale, rangeShareMin) / increment.nm) * (1 - limitTolerance)));
  const last = Math.floor((scale.maxNm / increment.nm) * (1 + limitTolerance));
  return first > last ? null : { first, last };
}

/** The named settings that lie in the range. */
export function namedInRange(scale: TorqueScale, rangeShareMin: number): ScaleTorque[] {
  const lowest = lowestNm(scale, rangeShareMin);
  return (scale.settings ?? []).filter(({ nm }) => atLeast(nm, lowest) && atMost(nm, scale.maxNm));
}

/** The n-th mark. 3 × 0.1 is 0.3 on a scale; the double product's last bit is not. */
export function multipleOf(increment: ScaleTorque, n: number): ScaleTorque {
  return { value: Number((increment.value * n).toPrecision(15)), unit: increment.unit, nm: increment.nm * n };
}

/** Far more marks than any scale has; each is looked at. */
const settingsMost = 200_000;

/** Every setting in the range, lowest first. */
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
      value: count,
    });
  }
  return Array.from({ length: count }, (_, index) => multipleOf(increment, range.first + index));
}
