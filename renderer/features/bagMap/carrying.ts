import type { BagOuting } from '../../../shared-types/bag.ts';
import type { LaidLine } from '../../../shared-types/bagMap.ts';
import { bagRefusal } from '../../engine/bagMap/bagCheck.ts';
import type { BagRefusal } from '../../engine/bagMap/bagCheck.ts';
import { blockExtent, blockKey, withPieces } from '../../engine/bagMap/mapBlocks.ts';
import type { MapBlock } from '../../engine/bagMap/mapBlocks.ts';
import type { LaidBlock, MapBag, MapLayout } from '../../engine/bagMap/mapLayout.ts';
import { placeRefusal } from '../../engine/bagMap/placeCheck.ts';
import type { PlaceRefusal, Spot } from '../../engine/bagMap/placeCheck.ts';
import { pocketAt } from '../../engine/bagMap/pockets.ts';
import type { MapPocket } from '../../engine/bagMap/pockets.ts';
import { freeSpot } from '../../engine/bagMap/spots.ts';
import type { Standing } from '../../engine/bagMap/standing.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { CarriedBlock } from '../../components/BagMap/MapBag.tsx';

export interface Found {
  laid: LaidBlock;
  bag: MapBag;
}

/** Where a block lies. */
export function findBlock({ bags }: MapLayout, key: string): Found | null {
  for (const bag of bags) {
    const laid = bag.blocks.find(({ block }) => block.key === key);
    if (laid !== undefined) return { laid, bag };
  }
  return null;
}

/** All its pieces, or so many of them. */
export function pickedUp(layout: MapLayout, key: string, pieces = Infinity): CarriedBlock | null {
  const found = findBlock(layout, key);
  if (found === null) return null;
  const { xMm, yMm, turned } = found.laid;
  return { key, bag: found.bag.bag.id, xMm, yMm, turned, pieces: countWithin(found.laid.block, pieces) };
}

/** At least one piece, and no more than lie there. */
export function countWithin({ quantity }: MapBlock, pieces: number): number {
  return Math.max(1, Math.min(pieces, quantity));
}

/** Carried so far across and down, never past the sides of the bag it is over. */
export function carriedBy(layout: MapLayout, carried: CarriedBlock, acrossMm: number, downMm: number): CarriedBlock {
  return within(layout, { ...carried, xMm: carried.xMm + acrossMm, yMm: carried.yMm + downMm });
}

export function carriedTurned(layout: MapLayout, carried: CarriedBlock): CarriedBlock {
  return within(layout, { ...carried, turned: !carried.turned });
}

/** Over the next pocket, then the next bag; or the one before. */
export function carriedOn(layout: MapLayout, carried: CarriedBlock, by: 1 | -1): CarriedBlock {
  const stations = layout.bags.flatMap(({ bag, pockets }): { bag: string; pocket?: MapPocket }[] =>
    pockets.length === 0 ? [{ bag: bag.id }] : pockets.map((pocket) => ({ bag: bag.id, pocket })),
  );
  const here = pocketUnder(layout, carried)?.name;
  const at = stations.findIndex(({ bag, pocket }) => bag === carried.bag && pocket?.name === here);
  const next = stations[(at + by + stations.length) % stations.length];
  if (next === undefined) return carried;
  const { bag, pocket } = next;
  if (pocket === undefined) return within(layout, { ...carried, bag });
  return { ...within(layout, { ...carried, bag, yMm: pocket.beginMm }), pocket: pocket.name };
}

/** The pocket that a carried block is over; null where the bag's pockets have no names. */
export function pocketUnder(layout: MapLayout, carried: CarriedBlock): MapPocket | null {
  const over = layout.bags.find(({ bag }) => bag.id === carried.bag);
  if (over === undefined) return null;
  const named = over.pockets.find(({ name }) => name === carried.pocket);
  return named ?? pocketAt(over.pockets, { yMm: carried.yMm, heightMm: extentOf(layout, carried)?.heightMm ?? 0 });
}

function extentOf(layout: MapLayout, { key, pieces, turned }: CarriedBlock): Pick<Spot, 'widthMm' | 'heightMm'> | null {
  const found = findBlock(layout, key);
  return found === null ? null : blockExtent(withPieces(found.laid.block, pieces), turned, layout.room);
}

/** Where there is room for it in a bag, or in one of its pockets. */
export function intoFree(layout: MapLayout, carried: CarriedBlock, to: { bag: string; pocket?: string }): CarriedBlock {
  const over = layout.bags.find(({ bag }) => bag.id === to.bag);
  const extent = extentOf(layout, carried);
  if (over === undefined || extent === null) return carried;
  const beginMm = over.pockets.find(({ name }) => name === to.pocket)?.beginMm ?? 0;
  const others = over.blocks
    .filter((one) => one.block.key !== carried.key && one.pocket === (to.pocket ?? null))
    .map((one) => ({ key: one.block.key, spot: { ...one, yMm: one.yMm - beginMm } }));
  const { xMm, yMm } = freeSpot(extent, over.lengthMm, others);
  const { pocket: _before, ...rest } = carried;
  return { ...rest, ...to, xMm, yMm: yMm + beginMm };
}

/** Within the bag it is over, to the millimetre. */
export function within(layout: MapLayout, { pocket: _sent, ...carried }: CarriedBlock): CarriedBlock {
  const over = layout.bags.find(({ bag }) => bag.id === carried.bag);
  const extent = extentOf(layout, carried);
  if (extent === null || over === undefined) return carried;
  const { widthMm, heightMm } = extent;
  const clamped = (mm: number, most: number): number => Math.max(0, Math.min(Math.round(mm), Math.floor(most)));
  return {
    ...carried,
    xMm: clamped(carried.xMm, over.lengthMm - widthMm),
    yMm: clamped(carried.yMm, over.depthMm - heightMm),
  };
}

export type MapRefusal = { why: 'bag'; bag: string; refusal: BagRefusal } | { why: 'place'; refusal: PlaceRefusal };

export type SetDown =
  | { kind: 'same' }
  | { kind: 'refused'; refused: MapRefusal }
  | {
      kind: 'laid';
      /** What lies elsewhere now: a line or some pieces of it, and what of pieces that lay apart is left behind. */
      lines: LaidLine[];
      /** Key of the block that was set down. */
      key: string;
    };

/** Whether a carried block may stay where it is held: the bag must take it, and nothing else may lie there. */
export function setDown(
  { plan, answer, layout, standing }: { plan: ResolvedPlan; answer: BagOuting; layout: MapLayout; standing: Standing },
  carried: CarriedBlock,
): SetDown {
  const found = findBlock(layout, carried.key);
  const over = layout.bags.find(({ bag }) => bag.id === carried.bag);
  if (found === null || over === undefined) return { kind: 'same' };
  const { laid, bag } = found;
  const { block } = laid;
  const { xMm, turned, pieces } = carried;
  const pocket = pocketUnder(layout, carried);
  // What is held over the border of two pockets lies in that of its middle, below the pocket's name.
  const yMm = pocket === null ? carried.yMm : Math.max(carried.yMm, pocket.beginMm);
  if (bag === over && xMm === laid.xMm && yMm === laid.yMm && turned === laid.turned) return { kind: 'same' };
  const move = { item: block.item, from: bag.bag.id, to: over.bag.id, pieces, standing };
  if (bag !== over) {
    const refusal = bagRefusal(plan, answer, move);
    if (refusal !== null) return { kind: 'refused', refused: { why: 'bag', bag: over.bag.id, refusal } };
  }
  const rest = block.quantity - pieces;
  const left = rest === 0 ? null : { ...laid, ...blockExtent(withPieces(block, rest), laid.turned, layout.room) };
  const others = over.blocks.flatMap((one) => {
    const there = one === laid ? left : one;
    return there === null || one.pocket !== (pocket?.name ?? null) ? [] : [{ key: one.block.key, spot: there }];
  });
  const { lengthMm, depthMostMm } = over;
  const spot = { xMm, yMm, ...blockExtent(withPieces(block, pieces), turned, layout.room) };
  const refusal = placeRefusal(spot, { lengthMm, depthMm: pocket?.mostMm ?? depthMostMm }, others);
  if (refusal !== null) return { kind: 'refused', refused: { why: 'place', refusal } };
  const part = rest === 0 ? block.part : nextPart(layout, block);
  return {
    kind: 'laid',
    lines: [
      ...(rest === 0 || block.part === null
        ? []
        : [lineOf({ ...block, quantity: rest }, { ...laid, bag: bag.bag.id, pocket: pocketNamed(bag, laid.pocket) })]),
      lineOf({ ...block, part, quantity: pieces }, { bag: over.bag.id, xMm, yMm, turned, pocket }),
    ],
    key: blockKey(block.bag, block.item, part),
  };
}

function lineOf(
  { item, bag, part, quantity }: Pick<MapBlock, 'item' | 'bag' | 'part' | 'quantity'>,
  {
    bag: to,
    xMm,
    yMm,
    turned,
    pocket,
  }: Pick<CarriedBlock, 'bag' | 'xMm' | 'yMm' | 'turned'> & { pocket: MapPocket | null },
): LaidLine {
  const apart = part === null ? {} : { apart: { part, pieces: quantity } };
  const place = pocket === null ? { yMm } : { yMm: yMm - pocket.beginMm, pocket: pocket.name };
  return { item, bag, to, xMm, ...place, turned, ...apart };
}

const pocketNamed = ({ pockets }: MapBag, name: string | null): MapPocket | null =>
  pockets.find((one) => one.name === name) ?? null;

function nextPart({ bags }: MapLayout, { item, bag }: MapBlock): number {
  const parts = bags.flatMap(({ blocks }) =>
    blocks.flatMap(({ block }) => (block.item === item && block.bag === bag ? [block.part ?? 0] : [])),
  );
  return Math.max(0, ...parts) + 1;
}

/** Whether pieces that lie apart may go back to the rest of their line: the bag in which that lies must take them. */
export function togetherAgain(
  { plan, answer, layout, standing }: { plan: ResolvedPlan; answer: BagOuting; layout: MapLayout; standing: Standing },
  key: string,
): MapRefusal | null {
  const found = findBlock(layout, key);
  if (found === null) return null;
  const { item, bag, quantity: pieces } = found.laid.block;
  const to = findBlock(layout, blockKey(bag, item))?.bag.bag.id ?? bag;
  const from = found.bag.bag.id;
  const refusal = from === to ? null : bagRefusal(plan, answer, { item, from, to, pieces, standing });
  return refusal === null ? null : { why: 'bag', bag: to, refusal };
}

const isSame = (one: LaidLine, other: LaidLine): boolean =>
  one.item === other.item && one.bag === other.bag && one.apart?.part === other.apart?.part;

/** The lines laid by hand with some more; the latest are the last. */
export function withLines(lines: readonly LaidLine[], more: readonly LaidLine[]): LaidLine[] {
  return [...lines.filter((line) => !more.some((other) => isSame(line, other))), ...more];
}

/** The lines without pieces that lay apart: they lie with the rest of theirs again. */
export function withoutPart(lines: readonly LaidLine[], { item, bag, part }: MapBlock): LaidLine[] {
  return lines.filter((line) => line.item !== item || line.bag !== bag || line.apart?.part !== part);
}

/** The block that an arrow comes to from another: row after row, bag after bag. */
export function neighbour({ bags }: MapLayout, key: string, towards: 'next' | 'before'): string | null {
  const keys = bags.flatMap(({ blocks }) => blocks.map(({ block }) => block.key));
  const at = keys.indexOf(key);
  return keys[at + (towards === 'next' ? 1 : -1)] ?? null;
}
