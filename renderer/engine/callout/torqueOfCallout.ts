import type { BandNm } from '../plan/resolved.ts';
import { seatingOfWrench } from '../preload/formula/index.ts';
import { atMost } from '../tolerance.ts';
import type { Callout } from './callout.ts';

/** A callout's torque taken apart into what is on the wrench, what turns the locking fastener and what seats the joint. */
export interface CalloutTorque {
  /** Null where no running torque is given, or its greatest is not. */
  running: BandNm | null;
  /** Where the torque on the wrench must lie; its least may be above its greatest. */
  aim: BandNm;
  /** What is left for seating; its greatest may not be above 0. */
  seating: BandNm;
  /** Had the running torque to be added, where the callout does not say. */
  ifAdded: { aim: BandNm; seating: BandNm } | null;
}

/**
 * The parts of a callout's torque.
 *
 *   running included: seating = [min − running max, max − running min]; to be added: on the wrench
 *   [min + running max, max + running min], which keeps seating within the callout whatever the running torque
 *
 * A callout that does not say is read as with the running torque in it, as commands `setting` and `bag` read it; the other
 * reading stands beside.
 *
 * @returns the bands [N·m]; the aim may hold no torque, and the seating torque be 0
 */
export function torqueOfCallout({ band, runningMinNm, runningMaxNm, runningIncluded }: Callout): CalloutTorque {
  if (runningMaxNm === null) return { running: null, aim: band, seating: band, ifAdded: null };
  const running = { minNm: runningMinNm ?? 0, maxNm: runningMaxNm };
  const added = {
    aim: { minNm: band.minNm + running.maxNm, maxNm: band.maxNm + running.minNm },
    seating: band,
  };
  if (runningIncluded === false) return { running, ...added, ifAdded: null };
  return {
    running,
    aim: band,
    seating: leftForSeating(band, running),
    ifAdded: runningIncluded === null ? added : null,
  };
}

/** Below 0 nothing is left: the fastener does not seat, and pulls nothing apart. */
function leftForSeating(wrench: BandNm, running: BandNm): BandNm {
  const maxNm = wrench.maxNm - running.minNm;
  if (atMost(wrench.minNm, running.maxNm)) return { minNm: 0, maxNm: Math.max(0, maxNm) };
  return { ...seatingOfWrench({ wrench, running }), maxNm };
}

/** Whether a band holds no torque at all. */
export function isEmpty({ minNm, maxNm }: BandNm): boolean {
  return !atMost(minNm, maxNm);
}
