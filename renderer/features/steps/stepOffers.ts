import type { Item, ItemOf } from '../../../shared-types/records/item.ts';
import type { Offer } from '../../components/SeekField/offersFor.ts';

/** What a step's fields can name, from the shelves of its task. */
export interface StepOffers {
  fasteners: readonly Offer[];
  gear: readonly Offer[];
  /** Gear that holds fasteners to be put in. */
  supplies: readonly Offer[];
}

export function fastenerOffer({ code, name, thread, head }: ItemOf<'fastener'>): Offer {
  const what = `${thread}, ${head.acrossFlats} ${head.form.replaceAll('-', ' ')}`;
  return { code, words: name === undefined ? what : `${name}: ${what}` };
}

export function offersOf(stock: readonly Item[]): StepOffers {
  const fasteners: Offer[] = [];
  const gear: Offer[] = [];
  const supplies: Offer[] = [];
  for (const item of stock) {
    if (item.kind === 'fastener') fasteners.push(fastenerOffer(item));
    if (item.kind === 'gear' && item.supplies !== undefined) supplies.push({ code: item.code, words: item.name ?? '' });
    if (item.kind === 'gear')
      gear.push({
        code: item.code,
        words: [item.name, item.consumed === true ? 'used up' : null, `${item.onHand} on hand`]
          .filter(Boolean)
          .join(', '),
      });
  }
  return { fasteners, gear, supplies };
}
