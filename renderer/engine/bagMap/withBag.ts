import type { BagItem, BagOuting } from '../../../shared-types/bag.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';

/** The outing with one line in another bag. Two lines of one item that meet in a bag are one line there. */
export function withBag(
  plan: ResolvedPlan,
  answer: BagOuting,
  line: { item: string; from: string },
  to: string,
): BagOuting {
  const merged: BagItem[] = [];
  for (const item of answer.items) {
    const moved = item.id === line.item && item.bag === line.from ? { ...item, bag: to } : item;
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
 *   m = Σ bags that hold something + Σ pieces, in whole milligrams
 *
 * @returns m [kg]
 * @throws nothing
 * @source rule of the objective of command `bag`
 * @validity masses as the plan gives them
 * @example a 0.9 kg pouch with two pieces of 0.3 kg: 1.5
 */
function massKg(plan: ResolvedPlan, items: readonly BagItem[]): number {
  const milligrams = (kg: number): number => Math.round(kg * 1e6);
  const used = new Set(items.map(({ bag }) => bag));
  const bags = [...used].reduce((sum, id) => sum + milligrams(plan.bags.get(id)?.massKg ?? 0), 0);
  const all = items.reduce(
    (sum, { id, quantity }) => sum + milligrams(plan.carried.get(id)?.massKg ?? 0) * quantity,
    bags,
  );
  return all / 1e6;
}
