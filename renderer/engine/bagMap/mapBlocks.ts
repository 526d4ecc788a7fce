import type { BagOuting } from '../../../shared-types/bag.ts';
import type { LaidLine } from '../../../shared-types/bagMap.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';
import { pieceSize } from './pieceSize.ts';
import type { PieceSize } from './pieceSize.ts';

/**
 * The pieces of one line, lying side by side, with room for their code beneath; or some of them that lie apart. They are
 * moved together, or so many of them as are taken apart.
 */
export interface MapBlock {
  key: string;
  item: string;
  /** Where the planner put it. */
  bag: string;
  /** Its number among those that lie apart of their line; null for the rest of it. */
  part: number | null;
  quantity: number;
  piece: PieceSize;
  /** How many are drawn; more are said by number. */
  drawn: number;
  /** Pieces side by side before the next row begins. */
  columns: number;
  label: string;
  /** Room side by side in the bag the planner gave it. */
  roomMm: number;
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

/** A block by what it holds and the bag the planner gave it, and by its number where it lies apart. */
export const blockKey = (bag: string, item: string, part: number | null = null): string =>
  JSON.stringify(part === null ? [bag, item] : [bag, item, part]);

/**
 * What lies in the bags of an outing, one block for each of its lines and one for each part that lies apart; none wider
 * than its bag where that can be.
 *
 * @param laid - lines that still hold: no part takes the last piece of its line
 */
export function mapBlocks(
  plan: ResolvedPlan,
  outing: BagOuting,
  { edgeMm, laid }: { edgeMm: number; laid: readonly LaidLine[] },
): MapBlock[] {
  return outing.items.flatMap(({ id, bag, quantity }): MapBlock[] => {
    const item = plan.carried.get(id);
    if (item === undefined) return [];
    const piece = pieceSize(plan, item);
    const roomMm = (plan.bags.get(bag)?.sizeMaxMm ?? Infinity) - 2 * edgeMm;
    const parts = laid.flatMap((line) =>
      line.item === id && line.bag === bag && line.apart !== undefined ? [line.apart] : [],
    );
    const rest = quantity - parts.reduce((sum, { pieces }) => sum + pieces, 0);
    return [{ part: null, pieces: rest }, ...parts].map(({ part, pieces }) => {
      const key = blockKey(bag, id, part);
      return withPieces({ key, item: id, bag, part, piece, roomMm }, pieces);
    });
  });
}

/** The same with so many pieces. */
export function withPieces(
  block: Omit<MapBlock, 'quantity' | 'drawn' | 'columns' | 'label'>,
  quantity: number,
): MapBlock {
  const drawn = Math.min(quantity, drawnMost);
  const label = quantity > 1 ? `${block.item} × ${quantity}` : block.item;
  return { ...block, quantity, drawn, columns: columnsOf(block.piece, drawn, block.roomMm), label };
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
