import type { BagItem, BagOuting } from '../../../shared-types/bag.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';

/**
 * The outing with one line in another bag, or some pieces of it. Two lines of one item that meet in a bag are one line
 * there.
 */
export function withBag(
  plan: ResolvedPlan,
  answer: BagOuting,
  line: { item: string; from: string; pieces?: number },
  to: string,
): BagOuting {
  const merged: BagItem[] = [];
  for (const moved of answer.items.flatMap((item) => (isOf(item, line) ? parted(item, line.pieces, to) : [item]))) {
    const at = merged.findIndex(({ id, bag }) => id === moved.id && bag === moved.bag);
    const there = merged[at];
    if (there === undefined) merged.push(moved);
    else
      merged[at] = {
        ...there,
        quantity: there.quantity + moved.quantity,
        because: [...new Set([...there.because, ...moved.because])],
      };
  }
  return { ...answer, items: inOrder(plan, merged), massKg: massKg(plan, merged) };
}

const isOf = ({ id, bag }: BagItem, { item, from }: { item: string; from: string }): boolean =>
  id === item && bag === from;

/** What stays, and what goes into the other bag. */
function parted(item: BagItem, pieces: number | undefined, to: string): BagItem[] {
  const going = Math.min(pieces ?? item.quantity, item.quantity);
  const stays = item.quantity - going;
  return [
    ...(stays > 0 ? [{ ...item, quantity: stays }] : []),
    ...(going > 0 ? [{ ...item, bag: to, quantity: going }] : []),
  ];
}

/** Bags in the order of the plan, items in that of the catalog, as the planner gives them. */
function inOrder(plan: ResolvedPlan, items: readonly BagItem[]): BagItem[] {
  const bags = [...plan.bags.keys()];
  const catalog = new Map([...plan.carried.keys()].map((id, index) => [id, index]));
  return items.toSorted(
    (a, b) => bags.indexOf(a.bag) - bags.indexOf(b.bag) || (catalog.get(a.id) ?? 0) - (catalog.get(b.id) ?? 0),
  );
}

/**
 * Mass of what is packed with the bags that hold it.
 *
 *   m = Σ bags that hold something + Σ pieces
 *
 * @returns m [kg]
 * @throws nothing
 * @source rule of the objective of command `bag`
 * @validity masses as the plan gives them
 * @example a 0.9 kg pouch with two pieces of 0.3 kg: 1.5
 */
function massKg(plan: ResolvedPlan, items: readonly BagItem[]): number {
  const used = [...new Set(items.map(({ bag }) => bag))];
  const bagsKg = used.reduce((sum, id) => sum + (plan.bags.get(id)?.massKg ?? 0), 0);
  return items.reduce((sum, { id, quantity }) => sum + (plan.carried.get(id)?.massKg ?? 0) * quantity, bagsKg);
}
