/** Frozen manifests: made, read again, held against each other. */
export { freeze, whyNotFrozen } from './freeze.ts';
export type { ToFreeze } from './freeze.ts';
export { readFrozen } from './readFrozen.ts';
export type { Frozen } from './readFrozen.ts';
