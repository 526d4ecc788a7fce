export { fitAtLimits, fitOf } from './fit.ts';
export { headLimits, headOfThread } from './heads.ts';
export { heldHeads } from './heldHeads.ts';
export { hexalobularDrive } from './hexalobular.ts';
export { acrossCornersMinMm, acrossCornersMm, freeAngleDeg, heavyHexAcrossFlatsMm } from './hexagon.ts';
export { openingFormsFor, openingGoesOnHead } from './openingForms.ts';
export { heldOpenings, openingByFormula, openingLimits } from './openings.ts';
export { socketFor, type SocketAnswer } from './socketFor.ts';
