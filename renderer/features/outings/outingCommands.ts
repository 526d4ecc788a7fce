import { createAsking } from '../task/asking.ts';

/** What the palette may ask of the outings' sheet. */
export type OutingWish =
  | 'add'
  | 'edit'
  | 'remove'
  | 'up'
  | 'down'
  | 'draw-all'
  | 'draw-one'
  | 'to-problems'
  | 'to-proposals';

export const outingAsking = createAsking<OutingWish>();
