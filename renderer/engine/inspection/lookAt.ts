import type { CalloutRow } from '../../../shared-types/callout.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import type { CalloutLook, TypedRow } from '../../../shared-types/inspection.ts';
import type { Callout } from '../callout/index.ts';
import { printedBand, printedLocking } from '../callout/heldFacts.ts';
import { wouldConform } from './wouldConform.ts';

const formulas = {
  nutFactor: 'F = T/(K·D), by the callout’s own nut factor',
  friction: 'screw equation, by the callout’s own friction',
};

/**
 * Everything about one row that its line does not tell.
 *
 * @param x.readAgain - reads and judges a callout of other cells; null where they cannot be read
 */
export function lookAt(x: {
  typed: TypedRow;
  callout: Callout | null;
  judged: CalloutRow | null;
  refusals: Refusal[];
  columns: readonly string[];
  readAgain: (cells: TypedRow['cells']) => CalloutRow | null;
}): CalloutLook {
  const { typed, callout, judged, refusals, columns, readAgain } = x;
  const { key, cells } = typed;
  if (callout === null || judged === null) {
    const nothing = { bands: [], locking: [], mends: [], preload: null, toolAccuracy: null, runningIncluded: null };
    return { key, cells, row: null, refusals, ...nothing };
  }
  const { thread, lubrication, tightening } = callout;
  return {
    key,
    cells,
    row: judged,
    refusals,
    bands: thread.bands(lubrication).bands.map(printedBand),
    locking: callout.locking === null ? [] : thread.lockingOfAll().map(printedLocking),
    mends: wouldConform({ callout, judged, cells, columns, readAgain }),
    preload:
      tightening === null
        ? null
        : {
            by: tightening.by,
            formula: formulas[tightening.by],
            stressAreaMm2: thread.screw.stressAreaMm2,
            preloadMinN: callout.preloadMinN,
            preloadMaxN: callout.preloadMaxN,
          },
    toolAccuracy: callout.toolAccuracy,
    runningIncluded: callout.runningIncluded,
  };
}
