/** Where the positions of an interface lie, in which order they are tightened, and how a worker sees them. */
export { parsePattern, patternText, placesIn } from './pattern.ts';
export type { Pattern, Turn } from './pattern.ts';
export { positionNames, positionsOf, readPattern } from './readPattern.ts';
export type { PatternPoint } from './readPattern.ts';
export { orderFaults, orderFaultWords, orderOfText, orderRules, proposeOrder } from './order.ts';
export type { OrderRule } from './order.ts';
export { pointsSeen, turnSeen } from './seen.ts';
