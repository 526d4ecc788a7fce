export { lockingLimits, lockingLimitsOf, type LockingLimits } from './limits.ts';
export { runningTorqueRules } from './rules.ts';
export { wrenchTorqueByDocument } from './wrenchTorque.ts';
