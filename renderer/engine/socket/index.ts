export { fitAtLimits, fitOf } from './fit.ts';
export { headLimits, headOfThread } from './heads.ts';
export { heldHeads } from './heldHeads.ts';
export { acrossCornersMinMm, acrossCornersMm, freeAngleDeg, heavyHexAcrossFlatsMm } from './hexagon.ts';
export { openingFormsFor, openingGoesOnHead } from './openingForms.ts';
export { heldOpenings, openingByFormula, openingLimits } from './openings.ts';
