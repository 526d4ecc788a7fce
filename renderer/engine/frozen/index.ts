/** Frozen manifests: made, read again, held against each other. */
export { changeCount, compareRevisions } from './compareRevisions.ts';
export type { Comparison, EntryChange, Side } from './compareRevisions.ts';
export type { FieldChange } from './fieldChanges.ts';
export { laidOfPlaces, mapOfFrozen } from './frozenPlaces.ts';
export { freeze, whyNotFrozen } from './freeze.ts';
export type { ToFreeze } from './freeze.ts';
export type { LineChange } from './lineChanges.ts';
export { readFrozen } from './readFrozen.ts';
export type { Frozen } from './readFrozen.ts';
export { sideOf } from './sideOf.ts';
