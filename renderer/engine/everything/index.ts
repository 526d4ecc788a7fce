export { everythingBytesMax, readEverything } from './readEverything.ts';
export type { Everything } from './readEverything.ts';
export { intoHere } from './intoHere.ts';
export type { Differing, Into } from './intoHere.ts';
export { outcomeFaults } from './outcomeFaults.ts';
export { snapshotText } from './readSnapshotText.ts';
export type { AllTables } from './readSnapshotText.ts';
