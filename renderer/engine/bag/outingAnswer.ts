import type { Minimised } from '../../../shared-types/bag.ts';
import type { Carried, ResolvedBag, ResolvedPlan } from '../plan/resolved.ts';
import type { BagModel, GroupColumns } from './bagModel.ts';
import { measured } from './measure.ts';
import type { Choice, StepGroup } from './outingWork.ts';

/** An answer of the solver in the plan's own terms. */
export interface OutingAnswer {
  contents: { item: Carried; bag: ResolvedBag; quantity: number }[];
  chosen: { group: StepGroup; stack: Choice; hold: Choice | null }[];
}

/** The columns of a solved program as pieces in bags and a stack for each step. */
export function readAnswer(model: BagModel, columns: readonly number[]): OutingAnswer {
  const at = (column: number): number => {
    const value = columns[column];
    if (value === undefined) throw new Error(`the solution has no column ${column}`);
    return value;
  };
  const taken = (list: GroupColumns['stacks']): Choice | null =>
    list.find(({ column }) => at(column) === 1)?.choice ?? null;
  return {
    contents: model.lying.flatMap(({ item, bag, column }) => {
      const quantity = at(column);
      return quantity > 0 ? [{ item, bag, quantity }] : [];
    }),
    chosen: model.groups.flatMap(({ group, stacks, holds }) => {
      const stack = taken(stacks);
      return stack ? [{ group, stack, hold: holds && taken(holds) }] : [];
    }),
  };
}

/**
 * Mass of everything taken with the bags that hold it: what the outing's people carry.
 *
 *   m = Σ bags that hold something + Σ pieces
 *
 * @returns m [kg]
 * @throws nothing
 * @source rule of the objective of command `bag`
 * @validity masses as the plan gives them
 * @example massKg of a 0.9 kg pouch with two pieces of 0.3 kg // 1.5
 */
export function massKg({ contents }: OutingAnswer): number {
  const used = new Set(contents.map(({ bag }) => bag));
  const bagsKg = [...used].reduce((sum, bag) => sum + bag.massKg, 0);
  return contents.reduce((sum, { item, quantity }) => sum + item.massKg * quantity, bagsKg);
}

/** The objective, added up again from what is packed; the bags' own mass counts where mass is minimised. */
export function objectiveValue(answer: OutingAnswer, minimise: Minimised): number {
  if (minimise === 'mass') return massKg(answer);
  return answer.contents.reduce((sum, { item, quantity }) => sum + measured(item, minimise) * quantity, 0);
}

/** Items in the order of the catalog, bags in the order of the outing. */
export function inCatalogOrder(
  plan: ResolvedPlan,
  bags: readonly ResolvedBag[],
  answer: OutingAnswer,
): OutingAnswer['contents'] {
  const catalog = [...plan.carried.keys()];
  return answer.contents.toSorted(
    (a, b) => bags.indexOf(a.bag) - bags.indexOf(b.bag) || catalog.indexOf(a.item.id) - catalog.indexOf(b.item.id),
  );
}
