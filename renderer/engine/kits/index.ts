/** Two kits held against each other: what is missing, what differs, and what that means for the steps of a task. */
export { compareKits } from './compareKits.ts';
export type { KitComparison, KitPair } from './compareKits.ts';
export { compareSteps } from './compareSteps.ts';
export type { StepsCompared } from './compareSteps.ts';
export { kitOfAnswer, readWithKit } from './kitPlan.ts';
export { stackChange } from './stackChange.ts';
export type { StackChange, StackEffect, StepWithKit } from './stackChange.ts';
