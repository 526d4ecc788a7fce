import type { BagWishes, ItemWish } from '../../../shared-types/bag.ts';
import { RefusedError } from '../errors.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';
import type { Counts } from './counts.ts';
import { addedUp, mostOf } from './counts.ts';

/** Nothing asked beyond the plan. */
export const noWishes: BagWishes = { keep: [], forbid: [], spares: [] };

/** Of an item named twice for one outing, the larger number is kept. */
export function keptOn({ keep }: BagWishes, outing: string): Counts {
  return mostOf(on(keep, outing).map(({ id, quantity }) => new Map([[id, quantity]])));
}

/** What may not be packed on an outing. */
export function forbiddenOn({ forbid }: BagWishes, outing: string): ReadonlySet<string> {
  return new Set(on(forbid, outing).map(({ id }) => id));
}

/** Spares go where some of the gear is needed, or to the outing they name. */
export function sparesOn({ spares }: BagWishes, outing: string, needed: Counts): Counts {
  const here = on(spares, outing).filter((wish) => wish.outing !== undefined || needed.has(wish.id));
  return addedUp(here.map(({ id, quantity }) => new Map([[id, quantity]])));
}

function on<T extends { outing?: string }>(wishes: readonly T[], outing: string): T[] {
  return wishes.filter((wish) => wish.outing === undefined || wish.outing === outing);
}

/**
 * Refuses what cannot be asked: ids the plan has not, numbers that are no count, spares of what is no gear. An item
 * both kept and forbidden is no mistake of writing: no bag does that, which the answer says.
 */
export function checkWishes(plan: ResolvedPlan, wishes: BagWishes): void {
  const counted: [string, readonly ItemWish[]][] = [
    ['keep', wishes.keep],
    ['spares', wishes.spares],
  ];
  for (const [field, list] of [...counted, ['forbid', wishes.forbid] as const]) {
    for (const wish of list) {
      if (!plan.carried.has(wish.id))
        refuse('unknown-id', `${field}: the catalog has no item "${wish.id}" that can be packed`, field, wish.id);
      if (wish.outing !== undefined && !plan.outings.some(({ id }) => id === wish.outing))
        refuse('unknown-id', `${field}: the plan has no outing "${wish.outing}"`, field, wish.outing);
    }
  }
  for (const [field, list] of counted) {
    for (const { id, quantity } of list) {
      if (!Number.isInteger(quantity) || quantity < 1)
        refuse(
          'out-of-range',
          `${field}: of ${id} a whole number of 1 or more is asked, not ${quantity}`,
          field,
          quantity,
        );
    }
  }
  for (const { id } of wishes.spares) {
    if (!plan.gear.has(id))
      refuse('out-of-range', `spares: ${id} is no carry gear; a second tool piece is asked with keep`, 'spares', id);
  }
}

function refuse(code: 'unknown-id' | 'out-of-range', message: string, field: string, value: unknown): never {
  throw new RefusedError({ code, message, field, value });
}
