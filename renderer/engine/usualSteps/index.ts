/** Steps that the trade usually does, to be left out, changed and added; what of it is common practice says so. */
export { failures, failureSteps, type Failure } from './failureSteps.ts';
export type { Way } from './parts.ts';
export { sharesOfText, shareOfTorque } from './shares.ts';
export { usualSteps, type Touched, type UsualFigures, type UsualStep } from './usualSteps.ts';
