import { blockExtent } from './mapBlocks.ts';
import type { LabelRoom, MapBlock } from './mapBlocks.ts';
import { placeRefusal } from './placeCheck.ts';
import type { Spot, Taken } from './placeCheck.ts';

export const edgeMm = 8;
const gapMm = 8;
const gridMm = 5;
/** A bag deeper than this many of its lengths is searched no further. */
const deepestMm = 100_000;

export interface OwnSpot extends Spot {
  turned: boolean;
}

/** Rows of blocks, widest first; a block too long for the bag is turned where that helps. */
export function ownSpots(blocks: readonly MapBlock[], lengthMm: number, room: LabelRoom): Map<string, OwnSpot> {
  const sized = blocks.map((block) => {
    const turned = blockExtent(block, false, room).widthMm > lengthMm - 2 * edgeMm && isShorterTurned(block, room);
    return { key: block.key, turned, ...blockExtent(block, turned, room) };
  });
  const spots = new Map<string, OwnSpot>();
  let [xMm, yMm, rowMm] = [edgeMm, edgeMm, 0];
  for (const { key, turned, widthMm, heightMm } of sized.toSorted((a, b) => b.widthMm - a.widthMm)) {
    if (xMm > edgeMm && xMm + widthMm > lengthMm - edgeMm) [xMm, yMm, rowMm] = [edgeMm, yMm + rowMm + gapMm, 0];
    spots.set(key, { xMm, yMm, widthMm, heightMm, turned });
    xMm += widthMm + gapMm;
    rowMm = Math.max(rowMm, heightMm);
  }
  return spots;
}

function isShorterTurned(block: MapBlock, room: LabelRoom): boolean {
  return blockExtent(block, true, room).widthMm < blockExtent(block, false, room).widthMm;
}

/** The first free spot from the top, row by row. The bag is as deep as that needs. */
export function freeSpot(
  extent: { widthMm: number; heightMm: number },
  lengthMm: number,
  taken: readonly Taken[],
): Spot {
  const lastX = Math.max(edgeMm, lengthMm - edgeMm - extent.widthMm);
  for (let yMm = edgeMm; yMm < deepestMm; yMm += gridMm) {
    for (let xMm = edgeMm; xMm <= lastX; xMm += gridMm) {
      const spot = { xMm, yMm, ...extent };
      if (placeRefusal(spot, { lengthMm: Infinity, depthMm: Infinity }, taken) === null) return spot;
    }
  }
  return { xMm: edgeMm, yMm: deepestMm, ...extent };
}
