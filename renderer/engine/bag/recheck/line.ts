import type { BagStep } from '../../../../shared-types/bag.ts';
import type { Carried, ResolvedBag } from '../../plan/resolved.ts';

/** Pieces of one item in one bag, found by id. */
export interface Line {
  item: Carried;
  bag: ResolvedBag;
  quantity: number;
}

/** What a step's answer uses, hold included; a piece used twice is named twice. */
export function piecesOf(answer: BagStep | undefined): string[] {
  return answer ? [...answer.stack, ...(answer.hold ?? [])] : [];
}

/** How many of an item the lines have together. */
export function quantityOf(lines: readonly Line[], id: string): number {
  return lines.reduce((sum, l) => sum + (l.item.id === id ? l.quantity : 0), 0);
}
