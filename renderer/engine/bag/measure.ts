import type { BagObjective, Minimised } from '../../../shared-types/bag.ts';
import type { Carried } from '../plan/resolved.ts';

/** What of an item is minimised, in the objective's own unit. */
export function measured(item: Carried, minimise: Minimised): number {
  if (minimise === 'mass') return item.massKg;
  return minimise === 'volume' ? (item.volumeL ?? 0) : 1;
}

export const objectiveUnit: Record<Minimised, BagObjective['unit']> = { mass: 'kg', count: 'pieces', volume: 'L' };

/** The solver works in grams, pieces and millilitres: its tolerances are absolute, and a bag's figures lie near 1. */
export const solverScale: Record<Minimised, number> = { mass: 1000, count: 1, volume: 1000 };
