/** What was learned, said wherever the same interface, item or step is touched. */
export { carriedToSteps } from './carried.ts';
export { planWithCarried, withoutCarried } from './inPlan.ts';
export { watchOutsOfInterface, watchOutsOfItem, watchOutsOfStep } from './said.ts';
export type { SaidWatchOut } from './said.ts';
