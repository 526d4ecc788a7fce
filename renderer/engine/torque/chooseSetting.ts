import type { Decision } from '../../../shared-types/judged.ts';
import type { Setting } from '../../../shared-types/bag.ts';
import type { BandNm, ScaleTorque } from '../plan/resolved.ts';
import { limitTolerance } from '../tolerance.ts';
import { intervalDecision } from './decide.ts';
import { appliedBand, multipleOf, multiplesInRange, namedInRange, type TorqueScale } from './scale.ts';

export interface ChosenSetting {
  setting: Setting;
  /** The value set. */
  nm: number;
  /** The torque applied at this setting, over the tool's permissible deviation. */
  applied: BandNm;
  /** How far the applied band lies inside the aim; below 0: how far it sticks out. */
  marginNm: number;
  decision: Decision;
  conforms: boolean;
}

interface Choice {
  torque: TorqueScale;
  aim: BandNm;
  rangeShareMin: number;
  correction?: number;
}

/**
 * The setting whose applied band lies furthest inside the aim.
 *
 *   applied = (S·(1 ± a) ± b·Smax)/c;  margin = min(applied min − aim min, aim max − applied max)
 *
 * The margin rises with S up to S/c = (aim min + aim max)/2 and falls after it, so of all multiples of an increment only
 * the two around that middle need looking at.
 *
 * @param x.torque - the tool's scale: multiples of an increment, or a list of settings; its accuracy of reading or of full scale
 * @param x.aim - where the applied band shall lie [N·m]
 * @param x.rangeShareMin - least share of the tool's maximum a setting may be, 0 to 1
 * @param x.correction - c, set ÷ applied, > 0; 1 without an offset head
 * @returns the best setting, conforming or not; ties go to the lower; null where the tool has none in its range
 * @throws nothing; a band that no setting keeps to comes back as not conforming
 * @source interval rule after ISO 14253-1 on a permissible deviation, ends included; the contract's rule 6
 * @validity range and accuracy apply to the value set
 * @validity hand torque tools whose deviation is a share of the reading
 * @example 20 to 30 N·m, ± 4 %, multiples of 0.5 N·m: 25 N·m, applied 24 to 26, margin 4
 */
export function chooseSetting(x: Choice): ChosenSetting | null {
  const judged = candidates(x).map((scale) => judge(scale, x));
  return judged.reduce<ChosenSetting | null>((best, next) => (best === null || better(next, best) ? next : best), null);
}

function judge(scale: ScaleTorque, { torque, aim, correction = 1 }: Choice): ChosenSetting {
  const applied = appliedBand({ scale: torque, setNm: scale.nm, correction });
  const decision = intervalDecision(applied, aim);
  return {
    setting: { value: scale.value, unit: scale.unit },
    nm: scale.nm,
    applied,
    marginNm: Math.min(applied.minNm - aim.minNm, aim.maxNm - applied.maxNm),
    decision,
    conforms: decision === 'conforming',
  };
}

function better(next: ChosenSetting, best: ChosenSetting): boolean {
  const slack = limitTolerance * Math.max(next.applied.maxNm, best.applied.maxNm);
  const difference = next.marginNm - best.marginNm;
  return Math.abs(difference) <= slack ? next.nm < best.nm : difference > 0;
}

function candidates({ torque, aim, rangeShareMin, correction = 1 }: Choice): ScaleTorque[] {
  const { increment } = torque;
  if (torque.settings !== null || increment === null) return namedInRange(torque, rangeShareMin);
  const range = multiplesInRange(torque, rangeShareMin);
  if (range === null) return [];
  const middle = (((aim.minNm + aim.maxNm) / 2) * correction) / increment.nm;
  const around = [Math.floor(middle), Math.ceil(middle)].map((n) => Math.min(Math.max(n, range.first), range.last));
  return [...new Set(around)].map((n) => multipleOf(increment, n));
}
