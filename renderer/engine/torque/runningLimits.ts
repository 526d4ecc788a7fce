import type { BandNm } from '../plan/resolved.ts';
import type { TorqueScale } from './scale.ts';

/** Running torques up to which a mistake about them still conforms; below 0 where the setting does not conform without any. */
export interface RunningLimits {
  /** The callout is for seating, and the running torque is not added to the setting. */
  ignoredNm: number;
  /** The callout is the total on the wrench, and the running torque is added to the setting all the same. */
  addedNm: number;
}

/**
 * The running torque above which leaving it out, or adding it blindly, no longer conforms at a setting.
 *
 *   left out: seating = applied − R, so A(1 − a) − D − R ≥ m;            R ≤ A(1 − a) − D − m
 *   added:    wrench set to A + R,   so (A + R)(1 + a) + D ≤ M;          R ≤ (M − D)/(1 + a) − A
 *
 * @param x.scale - a: accuracy of reading; b·Smax/c = D: accuracy of full scale at the fastener [N·m]
 * @param x.appliedNm - A, nominal torque at the fastener without running torque [N·m], > 0
 * @param x.correction - c, set ÷ applied, > 0
 * @param x.callout - m, M [N·m]
 * @returns both limits [N·m]
 * @throws nothing
 * @source closed form of the interval rule with wrench = seating + running
 * @validity the tool's range apart; the running torque itself taken as one value
 * @example 20 to 30 N·m, ± 4 %, set at 25 N·m: 4 N·m left out, 3.846 N·m added
 */
export function runningLimits(x: {
  scale: TorqueScale;
  appliedNm: number;
  correction: number;
  callout: BandNm;
}): RunningLimits {
  const { a, D } = deviation(x);
  return {
    ignoredNm: x.appliedNm * (1 - a) - D - x.callout.minNm,
    addedNm: (x.callout.maxNm - D) / (1 + a) - x.appliedNm,
  };
}

/**
 * The same where the setting may be any that conforms without running torque: highest where it is left out, lowest where it
 * is added. `ignoredNm` is also the greatest running torque that can be allowed for when all that is known of it is that it lies
 * between 0 and R: the aim is then [m + R, M].
 *
 *   left out: R ≤ ((M − D)/(1 + a))(1 − a) − D − m;   added: R ≤ (M − D)/(1 + a) − (m + D)/(1 − a)
 *
 * @param x.scale - as runningLimits takes it; a < 1
 * @param x.correction - c, set ÷ applied, > 0
 * @param x.callout - m, M [N·m]
 * @returns both limits [N·m]; below 0 where the tool is too coarse for the callout
 * @throws nothing
 * @source closed form of the interval rule with wrench = seating + running
 * @validity settings without steps; the tool's range apart
 * @example 20 to 30 N·m, ± 4 %: 7.692 N·m left out, 8.013 N·m added
 */
export function runningLimitsAtBest(x: { scale: TorqueScale; correction: number; callout: BandNm }): RunningLimits {
  const { a, D } = deviation(x);
  const highest = (x.callout.maxNm - D) / (1 + a);
  return {
    ignoredNm: highest * (1 - a) - D - x.callout.minNm,
    addedNm: highest - (x.callout.minNm + D) / (1 - a),
  };
}

function deviation({ scale, correction }: { scale: TorqueScale; correction: number }): { a: number; D: number } {
  return { a: scale.accuracyOfReading, D: ((scale.accuracyOfFullScale ?? 0) * scale.maxNm) / correction };
}
