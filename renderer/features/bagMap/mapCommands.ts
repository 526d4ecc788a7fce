import { createAsking } from '../task/asking.ts';

/** What the palette may ask of the bag map, for the piece in hand. */
export type MapWish =
  | 'pick-up'
  | 'put-back'
  | 'left'
  | 'right'
  | 'up'
  | 'down'
  | 'turn'
  | 'next-bag'
  | 'fewer'
  | 'more'
  | 'together'
  | 'by-itself';

export const mapAsking = createAsking<MapWish>();
