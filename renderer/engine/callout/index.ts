/** A drawing's torque callouts: read, judged by every rule, written out. */
export { calloutsCsv } from './calloutsCsv.ts';
export { answerJson, calloutsJson, judgedCalloutsJson, shareJson } from './calloutsJson.ts';
export { calloutsText } from './calloutsText.ts';
export { judgeCallouts, type AskedCallouts } from './judgeCallouts.ts';
export { areWhole, besideRows, refuseBad, type JudgedShare } from './shares.ts';
export { decisionOf } from './judgeCallout.ts';
export { readCallouts } from './readCallouts.ts';
export type { Callout } from './callout.ts';
