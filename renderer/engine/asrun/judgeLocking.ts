import type { Finding } from '../../../shared-types/judged.ts';
import { notHeldNote } from '../callout/notHeld.ts';
import { torqueText } from '../callout/words.ts';
import { atLeast, atMost } from '../tolerance.ts';
import type { CalloutLocking, SetLimit } from './lockingOf.ts';
import type { AsRunRecord } from './record.ts';

/** `running-over-limit`, `breakaway-under-limit`, `reuse-under-minimum`: a record's running and breakaway torque. */
export function lockingFindings(record: AsRunRecord, locking: CalloutLocking): Finding[] {
  const findings = [runningOver(record, locking), ...breakawayUnder(record, locking), reusedUnder(record, locking)];
  const isJudged = record.runningNm !== null || record.breakawayNm !== null;
  if (locking.notHeld !== null && isJudged) findings.push(unjudged(record, locking.notHeld));
  findings.push(...notPrinted(record, locking));
  return findings.filter((finding) => finding !== null);
}

function runningOver({ runningNm, callout }: AsRunRecord, { runningMax }: CalloutLocking): Finding | null {
  if (runningNm === null || runningMax === null || atMost(runningNm, runningMax.nm)) return null;
  const { unit } = callout;
  const over = torqueText(runningNm - runningMax.nm, unit);
  return {
    rule: 'running-over-limit',
    severity: 'reject',
    message: `The running torque of ${torqueText(runningNm, unit)} is ${over} over the running maximum of ${torqueText(runningMax.nm, unit)} by ${runningMax.by}.`,
    ...compared(runningNm, runningMax),
  };
}

function breakawayUnder({ breakawayNm, cycle, callout }: AsRunRecord, { breakawayMinAt }: CalloutLocking): Finding[] {
  if (breakawayNm === null) return [];
  const { certain, asked } = breakawayMinAt(cycle);
  const limit = [certain, asked].find((one) => one !== null && !atLeast(breakawayNm, one.nm)) ?? null;
  if (limit === null) return [];
  const { unit } = callout;
  const under = torqueText(limit.nm - breakawayNm, unit);
  const doubt =
    limit === certain
      ? ''
      : ` That minimum is of the first removal; none is printed for cycle ${cycle}, and the one of the fifth is kept.`;
  return [
    {
      rule: 'breakaway-under-limit',
      severity: limit === certain ? 'reject' : 'query',
      message: `The breakaway torque of ${torqueText(breakawayNm, unit)} is ${under} under the breakaway minimum of ${torqueText(limit.nm, unit)} by ${limit.by}.${doubt}`,
      ...compared(breakawayNm, limit),
    },
  ];
}

/** Documents that print no breakaway torque print what a nut used again must still have while it turns. */
function reusedUnder({ runningNm, cycle, callout }: AsRunRecord, { reusedMin }: CalloutLocking): Finding | null {
  if (runningNm === null || reusedMin === null || cycle < 2 || atLeast(runningNm, reusedMin.nm)) return null;
  const { unit } = callout;
  const under = torqueText(reusedMin.nm - runningNm, unit);
  return {
    rule: 'reuse-under-minimum',
    severity: 'query',
    message: `At cycle ${cycle} the fastener has a running torque of ${torqueText(runningNm, unit)}, ${under} under the least for use again of ${torqueText(reusedMin.nm, unit)} by ${reusedMin.by}.`,
    ...compared(runningNm, reusedMin),
  };
}

function compared(value: number, { nm, source }: SetLimit): Pick<Finding, 'value' | 'limit' | 'unit' | 'source'> {
  return { value, limit: nm, unit: 'N·m', source };
}

/** A document that is held and says nothing of what was read, where the callout has no limit of its own. */
function notPrinted({ runningNm, breakawayNm, cycle }: AsRunRecord, locking: CalloutLocking): Finding[] {
  const { document, runningMax, breakawayMinAt } = locking;
  if (document === null) return [];
  const said = (about: string, what: string) => notHeldNote(about, `${document} prints no ${what} for this thread.`);
  return [
    ...(runningNm !== null && runningMax === null ? [said('running-over-limit', 'greatest running torque')] : []),
    ...(breakawayNm !== null && breakawayMinAt(cycle).certain === null
      ? [said('breakaway-under-limit', 'least breakaway torque')]
      : []),
  ];
}

/** A refusal lists all that is held; a note needs not. */
const noteMost = 300;

function unjudged({ runningNm }: AsRunRecord, reason: string): Finding {
  return notHeldNote(
    runningNm === null ? 'breakaway-under-limit' : 'running-over-limit',
    `Running and breakaway torque are not judged by the document the callout names: ${reason}`.slice(0, noteMost),
  );
}
