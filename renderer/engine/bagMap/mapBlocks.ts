import type { BagOuting } from '../../../shared-types/bag.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';
import { pieceSize } from './pieceSize.ts';
import type { PieceSize } from './pieceSize.ts';

/** The pieces of one line, lying side by side, with room for their code beneath. They are moved together. */
export interface MapBlock {
  key: string;
  item: string;
  /** Where the planner put it. */
  bag: string;
  quantity: number;
  piece: PieceSize;
  /** How many are drawn; more are said by number. */
  drawn: number;
  /** Pieces side by side before the next row begins. */
  columns: number;
  label: string;
}

export interface Extent {
  widthMm: number;
  heightMm: number;
}

const betweenPiecesMm = 4;
const drawnMost = 12;
/** A block is about this much wider than high, as a bag laid open is. */
const wideness = 1.6;

/** Sizes of text on the drawing at its least scale, so that codes never run into each other. */
export interface LabelRoom {
  perLetterMm: number;
  heightMm: number;
  mostMm: number;
}

const letterPx = 7.6;
const labelPx = 16;
const labelMostPx = 130;

/** Room for codes at a scale: at a larger one they need less of the bag. */
export function labelRoom(pxPerMm: number): LabelRoom {
  return { perLetterMm: letterPx / pxPerMm, heightMm: labelPx / pxPerMm, mostMm: labelMostPx / pxPerMm };
}

/** A block by what it holds and the bag the planner gave it. */
export const blockKey = (bag: string, item: string): string => JSON.stringify([bag, item]);

/** What lies in the bags of an outing, one block for each of its lines; none wider than its bag where that can be. */
export function mapBlocks(plan: ResolvedPlan, outing: BagOuting, edgeMm: number): MapBlock[] {
  return outing.items.flatMap(({ id, bag, quantity }): MapBlock[] => {
    const item = plan.carried.get(id);
    if (item === undefined) return [];
    const piece = pieceSize(plan, item);
    const drawn = Math.min(quantity, drawnMost);
    const label = quantity > 1 ? `${id} × ${quantity}` : id;
    const roomMm = (plan.bags.get(bag)?.sizeMaxMm ?? Infinity) - 2 * edgeMm;
    const columns = columnsOf(piece, drawn, roomMm);
    return [{ key: blockKey(bag, id), item: id, bag, quantity, piece, drawn, columns, label }];
  });
}

/** As many side by side as make the block about as wide as a bag is, and no more than the bag is long for. */
function columnsOf({ lengthMm, acrossMm }: PieceSize, drawn: number, roomMm: number): number {
  const square = Math.sqrt((drawn * acrossMm * wideness) / lengthMm);
  const fitting = Math.floor((roomMm + betweenPiecesMm) / (lengthMm + betweenPiecesMm));
  return Math.min(drawn, Math.max(1, Math.min(Math.round(square), fitting)));
}

/** How far apart the pieces of a block begin, and how much of the bag all of them take without their code. */
export function piecesExtent(block: MapBlock, turned: boolean): Extent & { stepXMm: number; stepYMm: number } {
  const { piece, columns, drawn } = block;
  const rows = Math.ceil(drawn / columns);
  const [wide, high] = turned ? [piece.acrossMm, piece.lengthMm] : [piece.lengthMm, piece.acrossMm];
  const [across, down] = turned ? [rows, columns] : [columns, rows];
  const stepXMm = wide + betweenPiecesMm;
  const stepYMm = high + betweenPiecesMm;
  return {
    stepXMm,
    stepYMm,
    widthMm: across * stepXMm - betweenPiecesMm,
    heightMm: down * stepYMm - betweenPiecesMm,
  };
}

/** How much of the bag a block takes with its code. */
export function blockExtent(block: MapBlock, turned: boolean, room: LabelRoom): Extent {
  const { widthMm, heightMm } = piecesExtent(block, turned);
  const labelMm = Math.min(block.label.length * room.perLetterMm, Math.max(room.mostMm, widthMm));
  return { widthMm: Math.max(widthMm, labelMm), heightMm: heightMm + room.heightMm };
}
