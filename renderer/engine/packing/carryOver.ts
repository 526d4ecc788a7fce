import type { DeedOf, Revision } from '../../../shared-types/records/revision.ts';
import type { PackState } from './packState.ts';

/** What of an earlier count goes along, and what of it has no place any more and comes out of the bag. */
export interface CarriedOver {
  deed: DeedOf<'carried-over'>;
  /** Pieces that lie in a bag and are not, or not so many, in the next revision. */
  takeOut: { bag: string; item: string; pieces: number }[];
}

/**
 * What was counted under one revision, as the next one takes it over: line by line, never more than it asks for.
 *
 * Pieces that are not whole go along with the parts they have. Bags must be closed and counted again under the next revision:
 * they are others.
 *
 * @param state - packing under the earlier revision
 * @param from - the earlier revision's key
 * @param next - the revision that takes it over
 * @returns the deed for the next revision's first event, and what must come out
 */
export function carryOver(state: PackState, from: string, next: Pick<Revision, 'content'>): CarriedOver {
  const quantities = new Map(
    next.content.lines
      .filter(({ outing }) => outing === state.outing)
      .map(({ bag, item, quantity }) => [JSON.stringify([bag, item]), quantity]),
  );
  const takeOut: CarriedOver['takeOut'] = [];
  const counts: CarriedOver['deed']['counts'] = [];
  for (const { line, thing, counted, labels } of state.bags.flatMap(({ lines }) => lines)) {
    const { bag, item } = line;
    const pieces = Math.min(counted.pieces, quantities.get(JSON.stringify([bag, item])) ?? 0);
    if (pieces < counted.pieces) takeOut.push({ bag, item, pieces: counted.pieces - pieces });
    if (pieces === 0) continue;
    // Which of several pieces stays is not said: the parts that are short stay with those that do, so that nothing looks whole that is not.
    const short = counted.pieces * thing.parts - counted.parts;
    const parts = Math.max(pieces, pieces * thing.parts - short);
    counts.push({ bag, item, pieces, parts, labels: pieces === counted.pieces ? [...labels] : [] });
  }
  return { deed: { kind: 'carried-over', from, counts }, takeOut };
}
