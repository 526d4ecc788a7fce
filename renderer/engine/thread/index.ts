export { leadMm, leadOfStarts, turnsToRun } from './lead.ts';
export type { ExternalClass, InternalClass } from './limitTolerances.ts';
export { limitsOfSize, type LimitsOfSize } from './limitsOfSize.ts';
export { isoRootDiameterMm, minorDiameterMm, pitchDiameterMm, unrRootDiameterIn } from './profile.ts';
export { readThread } from './readThread.ts';
export { metricStressAreaMm2, unifiedStressAreaIn2 } from './stressArea.ts';
export type { Series, Thread } from './thread.ts';
