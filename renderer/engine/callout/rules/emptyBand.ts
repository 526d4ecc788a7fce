import { atMost } from '../../tolerance.ts';
import type { CalloutRule } from '../calloutCase.ts';
import { isEmpty } from '../torqueOfCallout.ts';
import { torqueText } from '../words.ts';

const arithmetic =
  'Arithmetic of the callout itself: a band has torques in it only where its least is no more than its greatest.';
const running =
  'Torque on the wrench = seating torque + running torque, whatever the running torque is within its limits (definition; NASA TM-106943 and FAA AC 43.13-1B add them).';

/** `empty-band`: least above greatest, as called out or once the running torque is taken out. */
export const emptyBand: CalloutRule = ({ callout, torque }, found) => {
  const { band, unit, runningIncluded } = callout;
  if (isEmpty(band)) {
    found.push({
      rule: 'empty-band',
      severity: 'reject',
      message: `The least torque of ${torqueText(band.minNm, unit)} is ${torqueText(band.minNm - band.maxNm, unit)} above the greatest of ${torqueText(band.maxNm, unit)}: no torque keeps to it.`,
      value: band.minNm,
      limit: band.maxNm,
      unit: 'N·m',
      source: arithmetic,
    });
    return;
  }
  const { aim, seating } = torque;
  if (torque.running === null) return;
  if (runningIncluded === false && isEmpty(aim)) {
    found.push({
      rule: 'empty-band',
      severity: 'reject',
      message: `With the running torque to be added, the wrench must show at least ${torqueText(aim.minNm, unit)} (least + greatest running) and at most ${torqueText(aim.maxNm, unit)} (greatest + least running): no torque does, for the running torque varies by more than the band is wide.`,
      value: aim.minNm,
      limit: aim.maxNm,
      unit: 'N·m',
      source: running,
    });
  } else if (runningIncluded !== false && atMost(seating.maxNm, 0)) {
    found.push({
      rule: 'empty-band',
      severity: 'reject',
      message: `The running torque of at least ${torqueText(torque.running.minNm, unit)} takes all of the ${torqueText(band.maxNm, unit)} on the wrench: nothing is left for seating.`,
      value: torque.running.minNm,
      limit: band.maxNm,
      unit: 'N·m',
      source: running,
    });
  }
};
