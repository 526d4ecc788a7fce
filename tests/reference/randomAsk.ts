/** What is asked of a random plan beside it: a loss to stand, items to keep, to forbid, spares. */
import type { Tolerance } from '../../shared-types/bag.ts';
import type { Ask } from './ask.ts';
import type { Dice } from './dice.ts';
import type { DraftStock, Pieces } from './randomStock.ts';

export const randomTolerance = (dice: Dice): Tolerance =>
  dice.pick(['nothing', 'nothing', 'nothing', 'nothing', 'piece', 'piece', 'piece', 'bag'] as const);

/** What each step takes of a piece, once more for the piece that may be lost, or for each of two bags; now and then not. */
export function wantForLoss(dice: Dice, tolerance: Tolerance, built: readonly { pieces: Pieces[] }[]): void {
  if (tolerance === 'nothing') return;
  const forgotten = dice.chance(0.1);
  for (const { pieces } of built) {
    const counts = new Map<Pieces, number>();
    for (const piece of pieces) counts.set(piece, (counts.get(piece) ?? 0) + 1);
    for (const [piece, count] of counts) {
      if (forgotten && dice.chance(0.3)) continue;
      piece.wanted = Math.max(piece.wanted, tolerance === 'piece' ? count + 1 : 2 * count);
    }
  }
}

type Wishes = Pick<Ask, 'keep' | 'forbid' | 'spares'>;

/** Wishes for items of the stock, mostly such that can be met; each item is wished for once. */
export function randomWishes(dice: Dice, stock: DraftStock, outings: readonly string[]): Wishes {
  const wishes: Wishes = { keep: [], forbid: [], spares: [] };
  if (dice.chance(0.45)) return wishes;
  const parts: Pieces[] = [...stock.sockets, ...stock.extensions, ...stock.tools];
  const somewhere = (): { outing?: string } => (dice.chance(0.35) ? { outing: dice.pick(outings) } : {});
  if (dice.chance(0.5)) {
    const from = parts.filter((one) => one.onHand > 0);
    const items: Pieces[] = dice.chance(0.25) && stock.gear.length > 0 ? stock.gear : from;
    const first = items.length > 0 ? dice.pick(items) : null;
    const second = from.length > 0 && dice.chance(0.25) ? dice.pick(from) : null;
    for (const item of new Set([first, second])) {
      if (item === null) continue;
      const quantity = dice.chance(0.06) ? item.onHand + 1 : dice.whole(1, Math.max(1, item.onHand));
      wishes.keep.push({ id: item.id, quantity, ...somewhere() });
    }
  }
  if (dice.chance(0.35)) {
    const idle = parts.filter((one) => one.wanted === 0);
    const all: Pieces[] = [...parts, ...stock.gear];
    const item = idle.length > 0 && dice.chance(0.6) ? dice.pick(idle) : all.length > 0 ? dice.pick(all) : null;
    const kept = wishes.keep.some(({ id }) => id === item?.id) && dice.chance(0.8);
    if (item !== null && !kept) wishes.forbid.push({ id: item.id, ...somewhere() });
  }
  if (stock.gear.length > 0 && dice.chance(0.5)) {
    const item = dice.pick(stock.gear);
    const quantity = dice.pick([1, 1, 2]);
    wishes.spares.push({ id: item.id, quantity, ...somewhere() });
    if (dice.chance(0.8)) item.onHand += quantity * (item.consumed ? outings.length : 1);
  }
  return wishes;
}
