import { createAsking } from '../task/asking.ts';

/** What the palette may ask of the steps' sheet. */
export type StepWish =
  | 'add'
  | 'edit'
  | 'copy'
  | 'remove'
  | 'up'
  | 'down'
  | 'to-number'
  | 'usual'
  | 'failures'
  | 'bring-in'
  | 'save-file';

export const stepAsking = createAsking<StepWish>();
