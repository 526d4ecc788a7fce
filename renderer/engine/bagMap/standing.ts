import type { BagResult, BagWishes, Tolerance } from '../../../shared-types/bag.ts';
import { noWishes } from '../bag/wishes.ts';

/** What an answer stands, and what was asked of it: it must hold for its lines wherever they are laid. */
export interface Standing {
  tolerance: Tolerance;
  wishes: BagWishes;
}

/** The same of an answer. One that was kept before these could be asked has neither. */
export function standingOf(result: Partial<BagResult>): Standing {
  const { tolerance = result.singleLoss === true ? 'piece' : 'nothing', wishes = noWishes } = result;
  return { tolerance, wishes };
}
