export { readStrength } from './readStrength.ts';
export type { SizedThread, Strength } from './strength.ts';
