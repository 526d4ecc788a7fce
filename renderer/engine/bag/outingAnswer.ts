import type { Minimised } from '../../../shared-types/bag.ts';
import type { ResolvedBag, ResolvedPlan, ResolvedStep } from '../plan/resolved.ts';
import type { Content } from './contents.ts';
import { measured } from './measure.ts';
import type { Choice } from './outingWork.ts';

/** An answer in the plan's own terms: what lies where, and for each step the stack it uses. */
export interface OutingAnswer {
  contents: Content[];
  /** By step, in the order of the plan. */
  chosen: ReadonlyMap<string, { step: ResolvedStep; stack: Choice; hold: Choice | null }>;
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
export function massKg({ contents }: Pick<OutingAnswer, 'contents'>): number {
  const used = new Set(contents.map(({ bag }) => bag));
  const bagsKg = [...used].reduce((sum, bag) => sum + bag.massKg, 0);
  return contents.reduce((sum, { item, quantity }) => sum + item.massKg * quantity, bagsKg);
}

/** The objective, added up again from what is packed; the bags' own mass counts where mass is minimised. */
export function objectiveValue(answer: Pick<OutingAnswer, 'contents'>, minimise: Minimised): number {
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
