import type { BagOuting } from '../../../shared-types/bag.ts';
import type { LaidLine } from '../../../shared-types/bagMap.ts';
import { bagRefusal } from '../../engine/bagMap/bagCheck.ts';
import type { BagRefusal } from '../../engine/bagMap/bagCheck.ts';
import { blockExtent } from '../../engine/bagMap/mapBlocks.ts';
import type { LaidBlock, MapBag, MapLayout } from '../../engine/bagMap/mapLayout.ts';
import { placeRefusal } from '../../engine/bagMap/placeCheck.ts';
import type { PlaceRefusal } from '../../engine/bagMap/placeCheck.ts';
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

export function pickedUp(layout: MapLayout, key: string): CarriedBlock | null {
  const found = findBlock(layout, key);
  if (found === null) return null;
  const { xMm, yMm, turned } = found.laid;
  return { key, bag: found.bag.bag.id, xMm, yMm, turned };
}

/** Carried so far across and down, never past the sides of the bag it is over. */
export function carriedBy(layout: MapLayout, carried: CarriedBlock, acrossMm: number, downMm: number): CarriedBlock {
  return within(layout, { ...carried, xMm: carried.xMm + acrossMm, yMm: carried.yMm + downMm });
}

export function carriedTurned(layout: MapLayout, carried: CarriedBlock): CarriedBlock {
  return within(layout, { ...carried, turned: !carried.turned });
}

/** Over the next bag, or the one before. */
export function carriedOn(layout: MapLayout, carried: CarriedBlock, by: 1 | -1): CarriedBlock {
  const { bags } = layout;
  const at = bags.findIndex(({ bag }) => bag.id === carried.bag);
  const next = bags[(at + by + bags.length) % bags.length];
  return next === undefined ? carried : within(layout, { ...carried, bag: next.bag.id });
}

/** Within the bag it is over, to the millimetre. */
export function within(layout: MapLayout, carried: CarriedBlock): CarriedBlock {
  const found = findBlock(layout, carried.key);
  const over = layout.bags.find(({ bag }) => bag.id === carried.bag);
  if (found === null || over === undefined) return carried;
  const { widthMm, heightMm } = blockExtent(found.laid.block, carried.turned, layout.room);
  const clamped = (mm: number, most: number): number => Math.max(0, Math.min(Math.round(mm), Math.floor(most)));
  return {
    ...carried,
    xMm: clamped(carried.xMm, over.lengthMm - widthMm),
    yMm: clamped(carried.yMm, over.depthMm - heightMm),
  };
}

export type MapRefusal = { why: 'bag'; bag: string; refusal: BagRefusal } | { why: 'place'; refusal: PlaceRefusal };

export type SetDown = { kind: 'same' } | { kind: 'refused'; refused: MapRefusal } | { kind: 'laid'; line: LaidLine };

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
  const { xMm, yMm, turned } = carried;
  if (bag === over && xMm === laid.xMm && yMm === laid.yMm && turned === laid.turned) return { kind: 'same' };
  if (bag !== over) {
    const refusal = bagRefusal(plan, answer, { item: block.item, from: bag.bag.id, to: over.bag.id, standing });
    if (refusal !== null) return { kind: 'refused', refused: { why: 'bag', bag: over.bag.id, refusal } };
  }
  const others = over.blocks.filter((one) => one !== laid).map((one) => ({ key: one.block.key, spot: one }));
  const { lengthMm, depthMostMm: depthMm } = over;
  const spot = { xMm, yMm, ...blockExtent(block, turned, layout.room) };
  const refusal = placeRefusal(spot, { lengthMm, depthMm }, others);
  if (refusal !== null) return { kind: 'refused', refused: { why: 'place', refusal } };
  return { kind: 'laid', line: { item: block.item, bag: block.bag, to: over.bag.id, xMm, yMm, turned } };
}

/** The lines laid by hand with one more; the latest is the last. */
export function withLine(lines: readonly LaidLine[], line: LaidLine): LaidLine[] {
  return [...lines.filter(({ item, bag }) => item !== line.item || bag !== line.bag), line];
}

/** The block that an arrow comes to from another: row after row, bag after bag. */
export function neighbour({ bags }: MapLayout, key: string, towards: 'next' | 'before'): string | null {
  const keys = bags.flatMap(({ blocks }) => blocks.map(({ block }) => block.key));
  const at = keys.indexOf(key);
  return keys[at + (towards === 'next' ? 1 : -1)] ?? null;
}
