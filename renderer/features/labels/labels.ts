import { pieceMost, tagText } from '../../engine/tag/index.ts';
import type { Item } from '../../../shared-types/records/item.ts';

/** A thing that labels can be made for. */
export interface LabelThing {
  /** The catalog's record as it is now. */
  item: Item;
  /** Said on a bag's label beside its role. */
  outing?: string;
}

/** One label, before it is laid out. */
export interface Label {
  /** Its 12 digits. */
  text: string;
  code: string;
  name: string;
  /** "piece 2 of 3", "counted by number", "bag, role mast, First outing". */
  said: string;
}

/** Why a thing gets no label; null where it gets one as soon as it has a number. */
export function whyNoLabel({ item }: LabelThing): string | null {
  if (piecesOf(item) === 0) return 'none on hand';
  return null;
}

/** How many labels a thing has: one for each piece, one for all where they are counted by number. */
export function labelCount({ item }: LabelThing): number {
  return piecesOf(item) ?? 1;
}

/** Pieces with a label each; null where one label is for all: fasteners, what is used up, a bag, and more than labels can count. */
function piecesOf(item: Item): number | null {
  if (item.kind === 'bag' || item.kind === 'fastener') return null;
  if (item.kind === 'gear' && item.consumed === true) return null;
  return item.onHand > pieceMost ? null : item.onHand;
}

/** The labels of things that have a number, in their order; of others none. */
export function labelsOf(things: readonly LabelThing[]): Label[] {
  return things.flatMap((thing): Label[] => {
    const { item } = thing;
    if (item.tag === undefined) return [];
    const own = { code: item.code, name: item.name ?? '' };
    const { tag } = item;
    if (item.kind === 'bag') return [{ ...own, text: tagText({ kind: 'bag', tag, piece: 0 }), said: bagWords(thing) }];
    const pieces = piecesOf(item);
    const parts = item.parts > 1 ? `, ${item.parts} parts` : '';
    if (pieces === null)
      return [{ ...own, text: tagText({ kind: 'item', tag, piece: 0 }), said: `counted by number${parts}` }];
    return Array.from({ length: pieces }, (_, at) => ({
      ...own,
      text: tagText({ kind: 'item', tag, piece: at + 1 }),
      said: `piece ${at + 1} of ${pieces}${parts}`,
    }));
  });
}

function bagWords({ item, outing }: LabelThing): string {
  const role = item.kind === 'bag' && item.role !== undefined ? `, role ${item.role}` : '';
  return `bag${role}${outing === undefined ? '' : `, ${outing}`}`;
}
