export { fitAtLimits, fitOf, type Fit, type FitAnswer, type LimitsFit } from './fit.ts';
export { headLimits, headOfThread, type HeadThread } from './heads.ts';
export { heldHeads, type HeadLimits, type HeldHead } from './heldHeads.ts';
export {
  acrossCornersMinMm,
  acrossCornersMm,
  freeAngleDeg,
  heavyHexAcrossFlatsMm,
  type CornerRule,
} from './hexagon.ts';
export { openingFormsFor, openingGoesOnHead } from './openingForms.ts';
export { heldOpenings, openingByFormula, openingLimits, type OpeningLimits } from './openings.ts';
