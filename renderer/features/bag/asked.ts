import type { BagWishes, Minimised, Tolerance } from '../../../shared-types/bag.ts';
import type { KeptResult } from '../../store/session.ts';

/** What is asked of the planner. */
export interface Asked {
  minimised: Minimised;
  tolerance: Tolerance;
  wishes: BagWishes;
  timeLimitS: number | null;
}

const nothingWished: BagWishes = { keep: [], forbid: [], spares: [] };

/** What was asked last, to begin with when it is asked again. */
export function askedLast(kept: KeptResult | null): Asked {
  return {
    minimised: kept?.minimised ?? 'mass',
    tolerance: kept?.tolerance ?? 'nothing',
    wishes: kept?.wishes ?? nothingWished,
    timeLimitS: kept?.timeLimitS ?? null,
  };
}

export const toleranceWords: Record<Tolerance, string> = {
  nothing: 'nothing lost',
  piece: 'any one piece lost',
  bag: 'any one bag lost',
};
