export { plausibilityText } from './plausibilityText.ts';
export { torquePlausibility, type TorquePlausibility } from './torquePlausibility.ts';
