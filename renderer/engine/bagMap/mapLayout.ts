import type { BagOuting } from '../../../shared-types/bag.ts';
import type { LaidLine } from '../../../shared-types/bagMap.ts';
import type { ResolvedBag, ResolvedPlan } from '../plan/resolved.ts';
import { blockExtent, blockKey, labelRoom, mapBlocks } from './mapBlocks.ts';
import type { LabelRoom, MapBlock } from './mapBlocks.ts';
import { placeRefusal } from './placeCheck.ts';
import type { Taken } from './placeCheck.ts';
import { ownPockets } from './pockets.ts';
import type { MapPocket } from './pockets.ts';
import { edgeMm, freeSpot, ownSpots } from './spots.ts';
import type { OwnSpot } from './spots.ts';

export interface LaidBlock extends OwnSpot {
  block: MapBlock;
  /** The pocket it lies in; null where the bag's pockets have no names. */
  pocket: string | null;
  /** A person laid it there. */
  byHand: boolean;
}

export interface MapBag {
  bag: ResolvedBag;
  lengthMm: number;
  /** `given`: the bag's longest size; `assumed`: none is given, or a piece is longer than it. */
  length: 'given' | 'assumed';
  depthMm: number;
  /** No bag's depth is given: laid open it is drawn as deep as what lies in it needs, down to this. */
  depthMostMm: number;
  /** One below the other; none where they have no names. */
  pockets: readonly MapPocket[];
  blocks: LaidBlock[];
}

export interface MapLayout {
  /** The least scale at which every code has its room. */
  pxPerMmLeast: number;
  room: LabelRoom;
  bags: MapBag[];
  /** Lines laid by hand which find no room there any more and lie where the program puts them. */
  fallen: LaidLine[];
}

/** The pocket of a line that was said before; undefined where the program chooses. */
export type PocketOf = (bag: string, item: string) => string | undefined;

/** A bag laid open is about this deep for its length, where what lies in it needs no more. */
const depthShare = 0.5;
const depthsMost = 4;
const roundMm = 10;
/** A window shows a bag of this length whole; longer bags are drawn smaller, down to half. */
const comfortablePx = 640;
const scaleLeast = 0.5;
const lengthLeastMm = 160;

/**
 * Where each line of an outing lies: by hand where it was laid so and still may, else by itself.
 *
 * The program's own arrangement is made from the planner's lines alone, so that nothing moves because something else
 * was moved. Pockets lie one below the other, each with its own lines.
 *
 * @param planned - the planner's answer
 * @param laid - lines laid by hand that the bags take, as `arrangedOuting` found
 * @param pocketOf - of a frozen manifest, which says in which pocket each line lies
 * @returns the bags in the order of the plan, each with its blocks in reading order
 */
export function mapLayout(
  plan: ResolvedPlan,
  planned: BagOuting,
  laid: readonly LaidLine[],
  pocketOf: PocketOf = () => undefined,
): MapLayout {
  const whole = mapBlocks(plan, planned, { edgeMm, laid: [] });
  const blocks = mapBlocks(plan, planned, { edgeMm, laid });
  const used = [...plan.bags.values()].filter(({ id }) => blocks.some(({ bag }) => bag === id));
  const longestMm = Math.max(lengthLeastMm, ...used.map((bag) => lengthOf(bag, blocks).lengthMm));
  const pxPerMmLeast = Math.max(scaleLeast, Math.min(1, comfortablePx / longestMm));
  const room = labelRoom(pxPerMmLeast);
  const fallen: LaidLine[] = [];
  const byKey = new Map(laid.map((line) => [keyOf(line), line]));
  const bags = used.map((bag): MapBag => {
    const { lengthMm, length } = lengthOf(bag, blocks);
    const here = blocks.filter((block) => (byKey.get(block.key)?.to ?? block.bag) === bag.id);
    const rule = ownPockets(plan, planned, bag.id);
    const [first] = bag.pockets;
    const known = (pocket: string | undefined): string | undefined =>
      pocket !== undefined && bag.pockets.includes(pocket) ? pocket : undefined;
    const own = ({ bag: of, item }: MapBlock): string | null =>
      known(pocketOf(bag.id, item)) ?? (of === bag.id ? rule.get(item) : undefined) ?? first ?? null;
    const pocketFor = (block: MapBlock): string | null => known(byKey.get(block.key)?.pocket) ?? own(block);
    // A place is one of its pocket: laid before the pockets had names, or in one that is gone, it is none.
    const placeOf = (block: MapBlock): LaidLine | undefined => {
      const line = byKey.get(block.key);
      return (line?.pocket ?? null) === pocketFor(block) || first === undefined ? line : undefined;
    };
    const shares = { lengthMm, room, placeOf, share: depthShare / Math.max(1, bag.pockets.length), fallen };
    const stretch = (pocket: string | null): Stretch =>
      laidStretch(
        whole.filter((block) => block.bag === bag.id && own(block) === pocket),
        here.filter((block) => pocketFor(block) === pocket),
        { ...shares, pocket, laid },
      );
    if (first === undefined) {
      const { blocks: placed, depthMm, depthMostMm } = stretch(null);
      return { bag, lengthMm, length, depthMm, depthMostMm, pockets: [], blocks: readingOrder(placed) };
    }
    let [downMm, mostMm] = [0, 0];
    const placed: LaidBlock[] = [];
    const pockets = bag.pockets.map((name): MapPocket => {
      const { blocks: inIt, depthMm, depthMostMm } = stretch(name);
      const yMm = downMm;
      const beginMm = yMm + room.heightMm;
      placed.push(...inIt.map((one) => ({ ...one, yMm: one.yMm + beginMm })));
      downMm = beginMm + depthMm;
      mostMm = beginMm + depthMostMm;
      return { name, yMm, beginMm, endMm: downMm, mostMm };
    });
    return { bag, lengthMm, length, depthMm: downMm, depthMostMm: mostMm, pockets, blocks: readingOrder(placed) };
  });
  return { pxPerMmLeast, room, bags, fallen };
}

interface Stretch {
  blocks: LaidBlock[];
  depthMm: number;
  depthMostMm: number;
}

/** A bag without named pockets, or one pocket: what was laid by hand first, the rest where the program puts it. */
function laidStretch(
  alone: readonly MapBlock[],
  here: readonly MapBlock[],
  x: {
    lengthMm: number;
    room: LabelRoom;
    pocket: string | null;
    laid: readonly LaidLine[];
    placeOf: (block: MapBlock) => LaidLine | undefined;
    /** Depth for its length, where what lies in it needs no more. */
    share: number;
    /** Takes up what finds no room where it was laid. */
    fallen: LaidLine[];
  },
): Stretch {
  const { lengthMm, room, pocket } = x;
  const own = ownSpots(alone, lengthMm, room);
  const ownDepthMm = Math.max(0, ...[...own.values()].map(({ yMm, heightMm }) => yMm + heightMm + edgeMm));
  const roomyMm = roundedUp(Math.max(ownDepthMm, lengthMm * x.share));
  const depthMostMm = roundedUp(ownDepthMm + lengthMm * depthsMost);
  const placed: LaidBlock[] = [];
  const taken = (): Taken[] => placed.map((one) => ({ key: one.block.key, spot: one }));
  for (const block of inOrderOf(here, x.laid)) {
    const line = x.placeOf(block);
    if (line === undefined) continue;
    const { xMm, yMm, turned } = line;
    const spot = { xMm, yMm, ...blockExtent(block, turned, room) };
    if (placeRefusal(spot, { lengthMm, depthMm: depthMostMm }, taken()) === null)
      placed.push({ block, pocket, ...spot, turned, byHand: true });
    else x.fallen.push(line);
  }
  for (const block of here) {
    if (placed.some((one) => one.block === block)) continue;
    const found = own.get(block.key);
    // What others lie apart from takes less room, in the same place.
    const spot = found === undefined ? undefined : { ...found, ...blockExtent(block, found.turned, room) };
    const free = spot !== undefined && placeRefusal(spot, unbounded, taken()) === null;
    const turned = spot?.turned ?? false;
    placed.push({
      block,
      pocket,
      byHand: false,
      turned,
      ...(free ? spot : freeSpot(blockExtent(block, turned, room), lengthMm, taken())),
    });
  }
  const neededMm = Math.max(0, ...placed.map(({ yMm, heightMm }) => yMm + heightMm + edgeMm));
  return { blocks: placed, depthMm: Math.max(roomyMm, roundedUp(neededMm)), depthMostMm };
}

const unbounded = { lengthMm: Infinity, depthMm: Infinity };

const roundedUp = (mm: number): number => Math.ceil(mm / roundMm) * roundMm;

/** What was laid later gives way to what was laid before. */
function inOrderOf(blocks: readonly MapBlock[], laid: readonly LaidLine[]): MapBlock[] {
  return laid.flatMap((line) => blocks.find(({ key }) => key === keyOf(line)) ?? []);
}

const keyOf = ({ bag, item, apart }: LaidLine): string => blockKey(bag, item, apart?.part ?? null);

/** Rows from the top, each from the left: the order in which the keyboard goes through them. */
function readingOrder(blocks: LaidBlock[]): LaidBlock[] {
  return blocks.toSorted((a, b) => a.yMm - b.yMm || a.xMm - b.xMm);
}

/** A bag is as long as its longest size; where none is given, as its longest piece needs, of whatever bag. */
function lengthOf(bag: ResolvedBag, blocks: readonly MapBlock[]): Pick<MapBag, 'lengthMm' | 'length'> {
  const own = blocks.filter((block) => block.bag === bag.id).map(({ piece }) => piece.lengthMm);
  const neededMm = Math.max(lengthLeastMm, ...own.map((mm) => mm + 2 * edgeMm));
  const { sizeMaxMm } = bag;
  // A piece as long as the bag lies along its edge.
  if (sizeMaxMm !== null && Math.max(0, ...own) <= sizeMaxMm)
    return { lengthMm: Math.max(sizeMaxMm, lengthLeastMm / 2), length: 'given' };
  return { lengthMm: roundedUp(neededMm), length: 'assumed' };
}
