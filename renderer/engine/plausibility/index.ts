export { plausibilityText } from './plausibilityText.ts';
export { torquePlausibility } from './torquePlausibility.ts';
