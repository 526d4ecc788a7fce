import type { Setting } from '../../../shared-types/bag.ts';
import type { BandNm, ResolvedTorque, ScaleTorque } from '../plan/resolved.ts';
import { atLeast, atMost, limitTolerance } from '../tolerance.ts';

export interface ChosenSetting {
  setting: Setting;
  nm: number;
  /** The torque applied at this setting, over the tool's permissible deviation. */
  applied: BandNm;
  /** How far the applied band lies inside the aim; below 0: how far it sticks out. */
  marginNm: number;
  conforms: boolean;
}

/**
 * The setting whose applied band lies furthest inside the aim.
 *
 *   applied = T·(1 ± a);  margin = min(T·(1 − a) − aim min, aim max − T·(1 + a))
 *
 * The margin rises with T up to T = (aim min + aim max)/2 and falls after it, so of all multiples of an increment only
 * the two around that middle need looking at.
 *
 * @param x.torque - the tool's scale: multiples of an increment, or a list of settings
 * @param x.aim - where the applied band shall lie [N·m]
 * @param x.rangeShareMin - least share of the tool's maximum a setting may be, 0 to 1
 * @returns the best setting, conforming or not; ties go to the lower; null where the tool has none in its range
 * @source interval rule after ISO 14253-1 on a permissible deviation, ends included; the contract's rule 6
 * @example 20 to 30 N·m, ± 4 %, multiples of 0.5 N·m: 25 N·m, applied 24 to 26, margin 4
 */
export function chooseSetting(x: { torque: ResolvedTorque; aim: BandNm; rangeShareMin: number }): ChosenSetting | null {
  const judged = candidates(x).map((scale) => judge(scale, x.torque.accuracyOfReading, x.aim));
  return judged.reduce<ChosenSetting | null>((best, next) => (best === null || better(next, best) ? next : best), null);
}

function judge(scale: ScaleTorque, accuracy: number, aim: BandNm): ChosenSetting {
  const applied = { minNm: scale.nm * (1 - accuracy), maxNm: scale.nm * (1 + accuracy) };
  return {
    setting: { value: scale.value, unit: scale.unit },
    nm: scale.nm,
    applied,
    marginNm: Math.min(applied.minNm - aim.minNm, aim.maxNm - applied.maxNm),
    conforms: atLeast(applied.minNm, aim.minNm) && atMost(applied.maxNm, aim.maxNm),
  };
}

function better(next: ChosenSetting, best: ChosenSetting): boolean {
  const slack = limitTolerance * Math.max(next.nm, best.nm);
  const difference = next.marginNm - best.marginNm;
  return Math.abs(difference) <= slack ? next.nm < best.nm : difference > 0;
}

function candidates({
  torque,
  aim,
  rangeShareMin,
}: {
  torque: ResolvedTorque;
  aim: BandNm;
  rangeShareMin: number;
}): ScaleTorque[] {
  const lowestNm = Math.max(torque.minNm, rangeShareMin * torque.maxNm);
  if (torque.settings) {
    return torque.settings.filter(({ nm }) => atLeast(nm, lowestNm) && atMost(nm, torque.maxNm));
  }
  const { increment } = torque;
  if (!increment) return [];
  const first = Math.max(1, Math.ceil((lowestNm / increment.nm) * (1 - limitTolerance)));
  const last = Math.floor((torque.maxNm / increment.nm) * (1 + limitTolerance));
  if (first > last) return [];
  const middle = (aim.minNm + aim.maxNm) / 2 / increment.nm;
  const around = [Math.floor(middle), Math.ceil(middle)].map((n) => Math.min(Math.max(n, first), last));
  return [...new Set(around)].map((n) => ({
    value: multiple(increment.value, n),
    unit: increment.unit,
    nm: increment.nm * n,
  }));
}

/** 3 × 0.1 is 0.3 on a scale; the double product's last bit is not. */
function multiple(increment: number, n: number): number {
  return Number((increment * n).toPrecision(15));
}
