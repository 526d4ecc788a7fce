/** Turns, strokes and time. Turns for a length are the thread's: `turnsToRun` of engine/thread. */
export { gripForceN } from './gripForce.ts';
export { resetAngleDeg } from './stepAngle.ts';
export { strokesInSwing } from './strokes.ts';
export { turningSeconds } from './time.ts';
