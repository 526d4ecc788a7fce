import type { BagObjective, Minimised } from '../../../shared-types/bag.ts';
import type { Carried } from '../plan/resolved.ts';

/** What of an item is minimised, in the objective's own unit. */
export function measured(item: Carried, minimise: Minimised): number {
  if (minimise === 'mass') return item.massKg;
  return minimise === 'volume' ? volumeL(item) : 1;
}

/**
 * Volume of an item where volumes count.
 *
 * @returns [L]
 * @throws Error where it has none, which a plan's bag is refused for before (`requireVolumes`)
 * @source rule of the objective of command `bag`: volumes are the plan’s
 * @validity plans whose volumes are all given
 * @example an item of 0.25 L: 0.25
 */
export function volumeL(item: Carried): number {
  if (item.volumeL === null) throw new Error(`no volume is given for ${item.id}`);
  return item.volumeL;
}

export const objectiveUnit: Record<Minimised, BagObjective['unit']> = { mass: 'kg', count: 'pieces', volume: 'L' };

/** The solver works in grams, pieces and millilitres: its tolerances are absolute, and a bag's figures lie near 1. */
export const solverScale: Record<Minimised, number> = { mass: 1000, count: 1, volume: 1000 };

/**
 * An item that a plan's own answer or step names.
 *
 * @returns the item
 * @throws Error where none is called so: a fault of the program, not of the plan
 */
export function carriedItem(carried: ReadonlyMap<string, Carried>, id: string): Carried {
  const item = carried.get(id);
  if (!item) throw new Error(`nothing carried is called ${id}`);
  return item;
}
