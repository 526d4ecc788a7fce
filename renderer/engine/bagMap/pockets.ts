import type { BagOuting } from '../../../shared-types/bag.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';

/** A pocket of a bag laid open: a stretch across it, one below the other. */
export interface MapPocket {
  name: string;
  /** Where the stretch begins, with the room for its name. */
  yMm: number;
  /** From where pieces lie in it: places within a pocket are taken from there. */
  beginMm: number;
  /** As far as it is drawn. */
  endMm: number;
  /** As far as pieces may lie, if the pocket is drawn deeper for them. */
  mostMm: number;
}

/**
 * In which pocket each line of a bag lies by itself: what is needed first lies in the first pocket.
 *
 *   lines in the order of the first step that needs them, those of no step last; the i-th of n lies in pocket ⌊i·k ÷ n⌋ of k
 *
 * @param plan - for the order of the steps, and the bag's pockets
 * @param planned - the planner's answer: nothing lies elsewhere because another line was moved
 * @param bag - code of the bag
 * @returns pocket by item; empty where the bag's pockets have no names
 * @throws nothing
 * @source common practice, no source
 * @validity any bag; pockets share the lines by their number, not by their room
 * @example ownPockets of three lines in pockets lid and main: lid, lid, main
 */
export function ownPockets(plan: ResolvedPlan, planned: BagOuting, bag: string): Map<string, string> {
  const pockets = plan.bags.get(bag)?.pockets ?? [];
  if (pockets.length === 0) return new Map();
  const order = new Map(plan.steps.map(({ id }, index) => [id, index]));
  const first = (because: readonly string[]): number =>
    because.reduce((least, step) => Math.min(least, order.get(step) ?? Infinity), Infinity);
  const lines = planned.items
    .filter((item) => item.bag === bag)
    .map(({ id, because }) => ({ id, first: first(because) }))
    .toSorted((a, b) => (a.first === b.first ? 0 : a.first - b.first));
  return new Map(
    lines.map(({ id }, index) => [id, pockets[Math.floor((index * pockets.length) / lines.length)] ?? '']),
  );
}

/**
 * The pocket that something lies in by where its middle is.
 *
 * @param pockets - of the bag, as they are laid out
 * @param spot - where it lies, in the bag's own mm
 * @returns the pocket, the last one where it lies below all; null where the bag has none
 */
export function pocketAt(
  pockets: readonly MapPocket[],
  { yMm, heightMm }: { yMm: number; heightMm: number },
): MapPocket | null {
  return pockets.find(({ endMm }) => yMm + heightMm / 2 < endMm) ?? pockets.at(-1) ?? null;
}
