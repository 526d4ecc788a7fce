import type { Finding } from '../../../../shared-types/judged.ts';
import type { LockingLimits } from '../../locking/index.ts';
import { atLeast, atMost } from '../../tolerance.ts';
import type { Callout } from '../callout.ts';
import type { CalloutRule } from '../calloutCase.ts';
import { notHeldNote } from '../notHeld.ts';
import { torqueText } from '../words.ts';

const added =
  'Running torque belongs to the wrench and not to the joint: NASA TM-106943 and FAA AC 43.13-1B add it to the seating torque; which of the two a callout means, it must say.';

/**
 * `running-not-accounted`, `running-over-limit`, `breakaway-under-limit`: what the callout says of its locking feature, against the
 * document it names.
 */
export const locking: CalloutRule = ({ callout }, found) => {
  if (callout.locking === null) return;
  const unsaid = notAccounted(callout);
  if (unsaid !== null) found.push({ rule: 'running-not-accounted', severity: 'query', message: unsaid, source: added });
  const { held, reason } = callout.thread.locking(callout.locking);
  if (held === null) {
    const note = `Running and breakaway torque are not judged: ${reason}`.slice(0, noteMost);
    const finding = callout.thread.sameFinding(note, () => notHeldNote('running-over-limit', note));
    if (finding !== null) found.push(finding);
    return;
  }
  judgeRunning(callout, held, found);
  judgeBreakaway(callout, held, found);
};

/** A refusal lists all that is held; a note needs not. */
const noteMost = 300;

function notAccounted({ runningIncluded, runningMinNm, runningMaxNm }: Callout): string | null {
  if (runningIncluded === null)
    return 'The fastener locks, and the callout does not say whether its running torque is in the band.';
  if (runningIncluded || runningMinNm !== null || runningMaxNm !== null) return null;
  return 'The running torque is to be added to the band, and the callout does not say how much it is.';
}

function judgeRunning({ runningMaxNm, unit }: Callout, held: LockingLimits, found: Finding[]): void {
  if (runningMaxNm === null) return;
  const limit = held.runningMaxNm;
  const by = held.source.number;
  if (limit === null) {
    found.push(notHeldNote('running-over-limit', `${by} prints no greatest running torque for this thread.`));
  } else if (!atMost(runningMaxNm, limit)) {
    found.push({
      rule: 'running-over-limit',
      severity: 'reject',
      message: `The callout allows a running torque of ${torqueText(runningMaxNm, unit)}, ${torqueText(runningMaxNm - limit, unit)} over the maximum of ${torqueText(limit, unit)} by ${by}.`,
      value: runningMaxNm,
      limit,
      unit: 'N·m',
      source: held.source,
    });
  }
}

function judgeBreakaway({ breakawayMinNm, unit }: Callout, held: LockingLimits, found: Finding[]): void {
  if (breakawayMinNm === null) return;
  const limit = held.breakawayMinNm;
  const by = held.source.number;
  if (limit === null) {
    found.push(notHeldNote('breakaway-under-limit', `${by} prints no least breakaway torque for this thread.`));
  } else if (!atLeast(breakawayMinNm, limit)) {
    found.push({
      rule: 'breakaway-under-limit',
      severity: 'reject',
      message: `The callout is content with a breakaway torque of ${torqueText(breakawayMinNm, unit)}, ${torqueText(limit - breakawayMinNm, unit)} under the minimum of ${torqueText(limit, unit)} by ${by}.`,
      value: breakawayMinNm,
      limit,
      unit: 'N·m',
      source: held.source,
    });
  }
}
