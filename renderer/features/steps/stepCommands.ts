import { createAsking } from '../task/asking.ts';

/** What the palette may ask of the steps' sheet. */
export type StepWish = 'add' | 'edit' | 'copy' | 'remove' | 'up' | 'down' | 'to-number' | 'usual' | 'failures';

export const stepAsking = createAsking<StepWish>();
