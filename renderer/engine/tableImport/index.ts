/** A table somebody else made: what its columns mean here, and what its rows would be. */
export { DryRun, keyOfRow, type KeptRow, type ReadyRow, type RunCounts } from './dryRun.ts';
export { guessMapping, headerSign, mappingFault, type Feed, type Mapping } from './guessMapping.ts';
export type { ImportTarget, TargetContext, TargetName } from './importTarget.ts';
export { importTargets } from './targets.ts';
export { unitsSeen, type UnitsSeen } from './unitsSeen.ts';
