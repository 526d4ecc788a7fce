import type { Deed, OutingEvent } from '../../../shared-types/records/revision.ts';
import { isSome, less, nothing, added } from './amount.ts';
import type { Amount } from './amount.ts';
import type { ReturnLine } from './returned.ts';

/**
 * Deeds by which something that lay at a place on purpose does so no more: what said that it was left there is taken back, and
 * what stays of it is left there anew. What is done with the rest is said by a deed of its own, behind these.
 *
 * @param line - as it stands
 * @param events - of the revision
 * @param x.place - where it lay
 * @param x.amount - how much of it
 * @param x.reason - in words: "brought home with Second outing", "not there any more"
 * @returns in order; nothing where not so much lies there
 */
export function noMoreLeft(
  line: ReturnLine,
  events: readonly OutingEvent[],
  x: { place: string; amount: Amount; reason: string },
): Deed[] {
  const { place, amount, reason } = x;
  const lies = line.at.find((at) => at.how === 'left' && at.place === place);
  if (lies === undefined || lies.pieces < amount.pieces || lies.parts < amount.parts) return [];
  const byNumber = new Map(events.map((event) => [event.no, event.deed]));
  const deeds: Deed[] = [];
  let takenBack = nothing;
  let untouched = nothing;
  for (const no of lies.events.toReversed()) {
    const deed = byNumber.get(no);
    if (deed?.kind !== 'left') continue;
    if (isSome(less(amount, takenBack))) {
      deeds.push({ kind: 'taken-back', of: no, reason });
      takenBack = added(takenBack, deed);
    } else untouched = added(untouched, deed);
  }
  // What was used there meanwhile is taken from what was left, as long as there is some.
  const used = less(added(takenBack, untouched), lies);
  const stays = less(less(lies, amount), less(untouched, used));
  return isSome(stays) ? [...deeds, { kind: 'left', bag: line.bag, item: line.item, place, ...stays }] : deeds;
}
