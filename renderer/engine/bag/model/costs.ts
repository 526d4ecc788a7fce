import type { Minimised } from '../../../../shared-types/bag.ts';
import type { Carried, ResolvedBag } from '../../plan/resolved.ts';
import { measured, solverScale } from '../measure.ts';

/** What the program minimises, in its own scale. */
export interface Costs {
  ofItem: (item: Carried) => number;
  /** What a bag adds where it holds something. */
  ofBag: (bag: ResolvedBag) => number;
  /** The program's figure for so much of the objective; a bound of the program, back to the objective. */
  back: (cost: number) => number;
  /** Whether fewer pieces are already preferred among equals. */
  countsPieces: boolean;
}

/** Past this, whole numbers are no longer told apart by the solver's tolerances. */
const wholeMost = 2 ** 31;

/** Pieces are weighed against each other in whole numbers, where there is a unit in which all of them are. */
const grainsKg = [1e-3, 1e-6, 0.45359237 / 1000, 0.45359237 / 1600, 0.45359237 / 16_000];
const grainsL = [1e-3, 1e-6, 0.016387064 / 1000];

/**
 * Costs of one outing. Where mass or volume comes in whole units, so many pieces to the unit are added that a piece
 * less decides among equals and nothing else: w = units·P + 1, P more than any bag holds.
 */
export function costsFor(
  items: readonly Carried[],
  bags: readonly ResolvedBag[],
  minimise: Minimised,
  piecesMost: number,
): Costs {
  const ownBags = minimise === 'mass' ? bags.map(({ massKg }) => massKg) : [];
  if (minimise === 'count') {
    return { ofItem: () => 1, ofBag: () => 0, back: (cost) => cost, countsPieces: true };
  }
  const values = [...items.map((item) => measured(item, minimise)), ...ownBags];
  const grain = commonGrain(values, minimise === 'mass' ? grainsKg : grainsL);
  const perUnit = piecesMost + 1;
  const most = grain === null ? Infinity : (Math.max(0, ...values) / grain) * perUnit * piecesMost;
  if (grain === null || most > wholeMost) {
    const scale = solverScale[minimise];
    return {
      ofItem: (item) => measured(item, minimise) * scale,
      ofBag: (bag) => (minimise === 'mass' ? bag.massKg * scale : 0),
      back: (cost) => cost / scale,
      countsPieces: false,
    };
  }
  const units = (value: number): number => Math.round(value / grain) * perUnit;
  return {
    ofItem: (item) => units(measured(item, minimise)) + 1,
    ofBag: (bag) => (minimise === 'mass' ? units(bag.massKg) : 0),
    // Whole units can only be a multiple of the grain: what lies between, up to the pieces counted in, is rounded down.
    back: (cost) => Math.max(0, Math.floor((cost + 1e-6) / perUnit)) * grain,
    countsPieces: true,
  };
}

/** The coarsest unit of which all values are multiples, found from the grains people weigh in; null where none is. */
function commonGrain(values: readonly number[], grains: readonly number[]): number | null {
  for (const grain of grains) {
    const units = values.map((value) => value / grain);
    if (units.some((unit) => Math.abs(unit - Math.round(unit)) > 1e-9 * Math.max(1, unit))) continue;
    const common = units.map(Math.round).reduce(greatestDivisor, 0);
    return common === 0 ? grain : common * grain;
  }
  return null;
}

function greatestDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestDivisor(b, a % b);
}
