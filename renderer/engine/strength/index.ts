export { proofLoadN, ultimateLoadN } from './loads.ts';
export { isPlausibleMPa, plausibleMPa } from './plausible.ts';
export { readStrength } from './readStrength.ts';
export { shearStrengthMPa } from './shear.ts';
export type { SizedThread, Strength } from './strength.ts';
