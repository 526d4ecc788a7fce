/** What leaves is what was planned: an outing's bags packed, counted again, checked and let go. */
export { amountText, sameAmount } from './amount.ts';
export type { Amount } from './amount.ts';
export { beginPacking, packOn } from './fold.ts';
export type { Entry, PackingFold } from './folded.ts';
export { deedRefusal } from './deedRefusal.ts';
export { isSamePerson } from './names.ts';
export { packState, stateOf } from './packState.ts';
export type { Chunk, PackedBag, PackedLine, PackState, Totals } from './packState.ts';
export { extrasOf, packersOf, secondCountFaults } from './standsOf.ts';
export { carryOver } from './carryOver.ts';
export { checksBeforeIssue } from './checksBeforeIssue.ts';
export type { IssueCheck } from './issueCheck.ts';
export { scanned } from './scanned.ts';
export type { ScanOutcome } from './scanned.ts';
export { stepsShort } from './stepsShort.ts';
export { countedBefore, packersBefore, revisionInWork } from './inWork.ts';
export { otherOrder } from './otherOrder.ts';
