/** What is asked of a plan beside it: the thing minimised, the loss to be stood, and the packer's wishes. */
import type { BagWishes, Minimised, Tolerance } from '../../shared-types/bag.ts';

export interface Ask extends BagWishes {
  minimise: Minimised;
  tolerance: Tolerance;
}

export const plainAsk = (minimise: Minimised, bend: Partial<Ask> = {}): Ask => ({
  minimise,
  tolerance: 'nothing',
  keep: [],
  forbid: [],
  spares: [],
  ...bend,
});
