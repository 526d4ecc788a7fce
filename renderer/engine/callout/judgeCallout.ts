import type { CalloutRow } from '../../../shared-types/callout.ts';
import type { Decision, Finding } from '../../../shared-types/judged.ts';
import type { Callout } from './callout.ts';
import type { CalloutCase, CalloutRule } from './calloutCase.ts';
import { computedOf } from './computed.ts';
import { engagementOfCallout } from './engagementOfCallout.ts';
import { jointOfCallout } from './jointOfCallout.ts';
import { dualUnit } from './rules/dualUnit.ts';
import { emptyBand } from './rules/emptyBand.ts';
import { locking } from './rules/locking.ts';
import { passes, turnAfterSnug } from './rules/passesAndTurn.ts';
import { preload } from './rules/preload.ts';
import { publishedBand } from './rules/publishedBand.ts';
import { threadStrips } from './rules/threadStrips.ts';
import { toolTooCoarse } from './rules/toolTooCoarse.ts';
import { wrongWrench } from './rules/wrongWrench.ts';
import { torqueOfCallout } from './torqueOfCallout.ts';

/** Every rule, in the order their findings are told. */
const rules: readonly CalloutRule[] = [
  emptyBand,
  dualUnit,
  preload,
  threadStrips,
  locking,
  wrongWrench,
  publishedBand,
  toolTooCoarse,
  passes,
  turnAfterSnug,
];

/**
 * One callout judged by every rule.
 *
 * @returns its findings with what they rest on, and the decision: any reject is nonconforming, else any query indeterminate
 */
export function judgeCallout(callout: Callout): CalloutRow {
  const torque = torqueOfCallout(callout);
  const x: CalloutCase = {
    callout,
    torque,
    joint: jointOfCallout(callout, torque),
    engagement: engagementOfCallout(callout),
  };
  const findings: Finding[] = [];
  for (const rule of rules) rule(x, findings);
  return {
    id: callout.id,
    row: callout.row,
    decision: decisionOf(findings),
    findings,
    computed: computedOf(x),
    ...(callout.otherColumns === null ? {} : { otherColumns: callout.otherColumns }),
  };
}

/** What a row's findings come to. */
export function decisionOf(findings: readonly Finding[]): Decision {
  let decision: Decision = 'conforming';
  for (const { severity } of findings) {
    if (severity === 'reject') return 'nonconforming';
    if (severity === 'query') decision = 'indeterminate';
  }
  return decision;
}
