import type { BagOuting, BagResult } from '../../../shared-types/bag.ts';
import type { LaidLine } from '../../../shared-types/bagMap.ts';
import type { FrozenPlace } from '../../../shared-types/records/revision.ts';
import { arrangedOuting } from '../bagMap/arrangedOuting.ts';
import { mapLayout } from '../bagMap/mapLayout.ts';
import type { LaidBlock, MapLayout, PocketOf } from '../bagMap/mapLayout.ts';
import { pocketsIn } from '../bagMap/pocketsIn.ts';
import { standingOf } from '../bagMap/standing.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';
import type { Frozen } from './readFrozen.ts';

/** Where the lines of one outing lie, as far as it is frozen. */
export interface FrozenLying {
  /** Pieces of a line by the pocket they lie in, in the order of the pockets; empty in a bag whose pockets have no names. */
  pocketsOf: (bag: string, item: string) => readonly { pocket: string; pieces: number }[];
  places: FrozenPlace[];
}

/** Nothing is said of any pocket or place. */
export const lyingNowhere: FrozenLying = { pocketsOf: () => [], places: [] };

/**
 * Where the lines of an outing lie: their pockets, and the places where a person laid them.
 *
 * @param plan - with the bags' pockets
 * @param planned - the outing as the planner gave it
 * @param lines - lines of it laid by hand
 * @param x.result - the whole answer, for what it stands
 * @param x.pocketOf - of what is packed already and keeps its pocket
 * @returns as it is to be frozen: for the answer as its lines lie
 */
export function frozenLying(
  plan: ResolvedPlan,
  planned: BagOuting,
  lines: readonly LaidLine[],
  x: { result: BagResult; pocketOf?: PocketOf },
): FrozenLying {
  const { laid } = arrangedOuting(plan, planned, lines, standingOf(x.result));
  const layout = mapLayout(plan, planned, laid, x.pocketOf);
  return { pocketsOf: (bag, item) => pocketsIn(layout, bag, item), places: placesIn(planned.id, layout) };
}

function placesIn(outing: string, { bags }: MapLayout): FrozenPlace[] {
  return bags.flatMap(({ bag, pockets, blocks }) =>
    blocks.flatMap(({ block, byHand, xMm, yMm, turned, pocket }: LaidBlock): FrozenPlace[] => {
      const beginMm = pockets.find(({ name }) => name === pocket)?.beginMm ?? 0;
      const named = pocket === null ? {} : { pocket };
      const place = { outing, bag: bag.id, item: block.item, pieces: block.quantity };
      // Places are whole hundredths of a millimetre, so that what is read again is what was written.
      const mm = (value: number): number => Math.round(value * 100) / 100;
      return byHand ? [{ ...place, xMm: mm(xMm), yMm: mm(yMm - beginMm), ...named, turned }] : [];
    }),
  );
}

/**
 * The frozen places of an outing as lines laid by hand of its frozen answer, in which each line lies in its bag already.
 *
 * @param answer - the frozen outing
 * @param places - of the manifest
 * @returns lines as the bag map takes them: all pieces of a line that was laid whole, else parts of it that lie apart
 */
export function laidOfPlaces(answer: BagOuting, places: readonly FrozenPlace[]): LaidLine[] {
  const left = new Map<string, { pieces: number; part: number }>();
  return places
    .filter(({ outing }) => outing === answer.id)
    .flatMap(({ bag, item, pieces, xMm, yMm, turned, pocket }): LaidLine[] => {
      const key = JSON.stringify([bag, item]);
      const all = answer.items.reduce((sum, one) => (one.id === item && one.bag === bag ? sum + one.quantity : sum), 0);
      const held = left.get(key) ?? { pieces: all, part: 0 };
      if (pieces > held.pieces) return [];
      const rest = { pieces: held.pieces - pieces, part: held.part + 1 };
      left.set(key, rest);
      const named = pocket === undefined ? {} : { pocket };
      const line = { item, bag, to: bag, xMm, yMm, turned, ...named };
      return [rest.pieces === 0 ? line : { ...line, apart: { part: rest.part, pieces } }];
    });
}

/**
 * How the bags of a frozen outing are laid out: as they were frozen, whatever the program would do by itself by now.
 *
 * @param frozen - the manifest, read
 * @param outing - code of the outing
 * @returns the bag map; null where the manifest has no such outing
 */
export function mapOfFrozen(
  { plan, result, places, linesOf }: Pick<Frozen, 'plan' | 'result' | 'places' | 'linesOf'>,
  outing: string,
): MapLayout | null {
  const answer = result.outings.find(({ id }) => id === outing);
  if (answer === undefined) return null;
  const known = new Map(linesOf(outing).map(({ bag, item, pocket }) => [JSON.stringify([bag, item]), pocket]));
  return mapLayout(plan, answer, laidOfPlaces(answer, places), (bag, item) => known.get(JSON.stringify([bag, item])));
}
