/** A drawing's torque callouts: read, judged by every rule, written out. */
export { calloutsCsv } from './calloutsCsv.ts';
export { calloutsJson, judgedCalloutsJson } from './calloutsJson.ts';
export { calloutsText } from './calloutsText.ts';
export { judgeCallouts, refuseBad } from './judgeCallouts.ts';
export { decisionOf } from './judgeCallout.ts';
export { readCallouts } from './readCallouts.ts';
export type { Callout } from './callout.ts';
