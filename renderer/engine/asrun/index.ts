/** What was recorded at the work site: read, judged against its callouts, written out. */
export { asRunCsv } from './asRunCsv.ts';
export { asRunText } from './asRunText.ts';
export { judgeAsRun } from './judgeAsRun.ts';
export { orderColumn, orderFromColumn } from './sequence.ts';
