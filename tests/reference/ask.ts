/**
 * What is asked of a plan beside it: the thing minimised, the loss to be stood, and the packer's wishes.
 *
 * Readings where the rules leave room:
 * - an item wished for twice: of quantities to be kept the largest holds, spares add up;
 * - a spare without an outing goes where the steps need some of the item, one with an outing goes there in any case;
 * - what is kept may be what is packed anyway; of gear, the need and its spares are counted against it;
 * - consumed gear adds up over the outings by need and spares; what is only kept is on hand at each outing again;
 * - a stack with a forbidden piece is no possible stack of that outing, also where rule 9 asks what a role may use.
 */
import type { BagWishes, ItemWish, Minimised, Tolerance } from '../../shared-types/bag.ts';
import type { BreakName } from './breaks.ts';
import type { Stock } from './stock.ts';

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

/** An ask, or only the thing minimised. */
export const askOf = (asked: Ask | Minimised): Ask => (typeof asked === 'string' ? plainAsk(asked) : asked);

const here = (wish: { outing?: string }, outing: string): boolean =>
  wish.outing === undefined || wish.outing === outing;

/** At least so many of each id on an outing. */
export function keptOn(ask: Ask, outing: string, firstOuting: string, broken?: BreakName): Map<string, number> {
  const kept = new Map<string, number>();
  if (broken === 'keep') return kept;
  for (const wish of ask.keep) {
    const place = broken === 'keepEveryOuting' ? { ...wish, outing: wish.outing ?? firstOuting } : wish;
    if (here(place, outing)) kept.set(wish.id, Math.max(wish.quantity, kept.get(wish.id) ?? 0));
  }
  return kept;
}

/** The stock as an outing may draw on it: of what is forbidden there is none. */
export function stockOn(stock: Stock, ask: Ask, outing: string, broken?: BreakName): Stock {
  const forbidden = new Set(
    ask.forbid.filter((one) => broken === 'forbidOuting' || here(one, outing)).map(({ id }) => id),
  );
  if (forbidden.size === 0 || broken === 'forbid') return stock;
  const without = <T extends { id: string; onHand: number }>(items: readonly T[]): T[] =>
    items.map((item) => (forbidden.has(item.id) ? { ...item, onHand: 0 } : item));
  const tools = without(stock.tools);
  const extensions = without(stock.extensions);
  const sockets = without(stock.sockets);
  const gear = without(stock.gear);
  const all = [...tools, ...extensions, ...sockets, ...gear];
  return { tools, extensions, sockets, gear, bags: stock.bags, carried: new Map(all.map((item) => [item.id, item])) };
}

/** Gear that an outing's steps need, with the spares that go along. */
export function withSpares(
  need: ReadonlyMap<string, number>,
  spares: readonly ItemWish[],
  outing: string,
  broken?: BreakName,
): Map<string, number> {
  const total = new Map(need);
  if (broken === 'spares') return total;
  for (const wish of spares) {
    const goes =
      wish.outing === undefined
        ? (need.get(wish.id) ?? 0) > 0 || broken === 'sparesWhereNeeded'
        : wish.outing === outing;
    if (goes) total.set(wish.id, (total.get(wish.id) ?? 0) + wish.quantity);
  }
  return total;
}
