import type { Carried, ResolvedPlan } from '../plan/resolved.ts';

/** A piece as it lies flat. */
export interface PieceSize {
  lengthMm: number;
  acrossMm: number;
  /** Which of the two the plan gives; the other is assumed, as `assumedText` says. */
  known: 'both' | 'length' | 'none';
}

/** How wide a handle of a known length is drawn: its length times this, and never slimmer than a hand's grip. */
const handleShare = 0.11;
const handleLeastMm = 22;
/** A handle reaches past the square it turns by about this. */
const pastLever = 1.1;
/** How wide a thing of a known longest side is drawn. */
const packShare = 0.55;
/** Drawn for a thing whose size is not given. */
const unknownMm = 60;

export const assumedText =
  'Where one dimension alone is given the other is assumed: a handle is drawn 0.11 of its length wide and at least ' +
  '22 mm, other gear 0.55 of its longest side (common practice, no source).';

/**
 * Length and width of a piece lying flat.
 *
 *   sockets, extensions: length × outside diameter
 *   handles: size, or 1.1 × lever; × max(0.11 × length, 22 mm)
 *   gear: size × 0.55 size; 60 mm where there is no size
 *
 * @returns [mm], with which of the two the plan gives
 * @throws nothing
 * @source common practice, no source
 * @validity for finding things in a bag; not for proving that they fit it
 * @example a socket 53 mm long of ⌀ 20 mm: { lengthMm: 53, acrossMm: 20, known: 'both' }
 */
export function pieceSize(plan: ResolvedPlan, item: Carried): PieceSize {
  const turned = plan.extensions.get(item.id) ?? plan.sockets.get(item.id);
  if (turned !== undefined) return { lengthMm: turned.lengthMm, acrossMm: turned.outsideDiameterMm, known: 'both' };
  const tool = plan.tools.get(item.id);
  if (tool !== undefined) {
    const given = tool.sizeMm ?? (tool.leverMm === null ? null : tool.leverMm * pastLever);
    const lengthMm = given ?? unknownMm * 3;
    const acrossMm = Math.max(handleLeastMm, lengthMm * handleShare);
    return { lengthMm, acrossMm, known: given === null ? 'none' : 'length' };
  }
  const lengthMm = item.sizeMm ?? unknownMm;
  return { lengthMm, acrossMm: lengthMm * packShare, known: item.sizeMm === null ? 'none' : 'length' };
}
