import type { Highs } from 'highs';
import type { ResolvedBag } from '../../plan/resolved.ts';
import { IntegerProgram, sharesSettings } from '../model/integerProgram.ts';
import type { Demand } from '../model/demands.ts';

/** Σ weight · (what lies of the item in those bags) ≥ 1: so much any bag has that meets a demand. */
export interface Cut {
  terms: { id: string; of: (bag: ResolvedBag) => boolean; weight: number }[];
  /** Of this item one piece less counts, where there is one. */
  lost: string | null;
}

/** What lies of an item in the bags of a kind, in shares too. */
export type LiesThere = (id: string, of: (bag: ResolvedBag) => boolean) => number;

/** Met by more than this it is met. */
const tolerance = 1e-7;
/** Weights are rounded up, so that what the solver's tolerance leaves out never makes a cut too strict. */
const weightUp = 1 + 4e-6;

/** One demand as a program of its own, kept in the solver, which starts each time from where it ended before. */
export interface DemandProgram {
  /** @returns what must lie there beyond this; null where the demand is met in shares */
  cut: (lies: LiesThere) => Cut | null;
  seconds: () => number;
  dispose: () => void;
}

/**
 * How many times over a demand is met by what lies in the bags, at most once, by a flow in shares:
 *
 *   max v,  flows of v,  Σ terms(i) ≤ lies(i)
 *
 * Where v < 1, the duals a(i) ≥ 0 of the bags' rows give v ≤ Σ a(i)·lies(i) for whatever lies there, so no bag that
 * meets the demand has Σ a(i)·lies(i) < 1. Nor has one with every a(i) > 1 put down to 1, since pieces are whole.
 *
 * @returns the program, which its user disposes of
 */
export function demandProgram(highs: Highs, demand: Demand): DemandProgram {
  const program = new IntegerProgram();
  const times = program.column({ cost: -1, upper: 1, integer: false });
  const draws = demand.addTo(program, times);
  const firstRow = program.rowCount;
  for (const { terms } of draws) program.atMost(0, terms);
  const model = highs.createModel(program.inShares());
  model.options.set(sharesSettings);
  return {
    cut: (lies) => {
      for (const [index, { id, of }] of draws.entries()) {
        model.changeRowBounds(firstRow + index, -Infinity, Math.max(0, lies(id, of)));
      }
      const { modelStatus } = model.run();
      // Without an answer its duals say nothing; what is amiss shows when the whole answer is looked at.
      if (modelStatus !== highs.constants.modelStatus.optimal) return null;
      if (-model.getObjectiveValue() > 1 - tolerance) return null;
      const dual = model.getSolution().rowDual;
      const terms = draws.flatMap(({ id, of }, index) => {
        const weight = Math.min(1, -(dual[firstRow + index] ?? 0) * weightUp);
        return weight > tolerance ? [{ id, of, weight }] : [];
      });
      return { terms, lost: demand.lost };
    },
    seconds: () => model.getRunTime(),
    dispose: () => model.dispose(),
  };
}
