import type { Place } from '../../store/place.ts';
import { mapAsking } from '../bagMap/mapCommands.ts';
import type { MapWish } from '../bagMap/mapCommands.ts';
import type { WishKind } from '../bagPlan/planDraft.ts';
import type { Command } from '../palette/command.ts';
import { createAsking } from '../task/asking.ts';

/** What the palette may ask of the bag's sheet. */
export type BagWish = WishKind | 'plan-again' | 'compare';

export const bagAsking = createAsking<BagWish>();

const mapTitles: readonly (readonly [wish: MapWish, title: string])[] = [
  ['pick-up', 'Bag map: pick up the piece in hand, or set it down'],
  ['put-back', 'Bag map: put back what is picked up'],
  ['left', 'Bag map: move the piece in hand left 10 mm'],
  ['right', 'Bag map: move the piece in hand right 10 mm'],
  ['up', 'Bag map: move the piece in hand up 10 mm'],
  ['down', 'Bag map: move the piece in hand down 10 mm'],
  ['turn', 'Bag map: turn the piece in hand'],
  ['next-bag', 'Bag map: take the piece in hand over the next bag'],
  ['fewer', 'Bag map: take one piece less'],
  ['more', 'Bag map: take one piece more'],
  ['together', 'Bag map: lay pieces with the rest of their line again'],
  ['by-itself', 'Bag map: lay all out by itself'],
];

const bagTitles: readonly (readonly [wish: BagWish, title: string])[] = [
  ['keep', 'Keep the line in hand always, or no longer'],
  ['forbid', 'Forbid the line in hand, or no longer'],
  ['spares', 'Add one spare of the line in hand, or take it off'],
  ['plan-again', 'Plan again: open the form'],
  ['compare', 'Compare with another bag'],
];

export interface BagSituation {
  hasTask: boolean;
  hasResult: boolean;
  planning: boolean;
  place: Place;
}

/** What the finder offers of the planned bag: its wishes and the moves of its map. */
export function bagCommands({ hasTask, hasResult, planning, place }: BagSituation): Command[] {
  const hindered = !hasTask
    ? 'open a task first'
    : place.at !== 'bag'
      ? 'go to the bag first'
      : planning
        ? 'it is being planned'
        : hasResult
          ? null
          : 'plan the bag first';
  const act = (id: string, title: string, run: () => void): Command => ({
    ...{ kind: 'Do', keys: null, id, title, hindered, run },
  });
  return [
    ...bagTitles.map(([wish, title]) => act(`bag-${wish}`, title, () => bagAsking.ask(wish))),
    ...mapTitles.map(([wish, title]) => act(`map-${wish}`, title, () => mapAsking.ask(wish))),
  ];
}
