/** Plans made from a plan: less of it, so that the planner can be asked what becomes of the rest. */
import type { BagOuting, BagWishes } from '../../../../shared-types/bag.ts';
import type { Carried, ResolvedPlan } from '../../plan/resolved.ts';

/** One outing alone. Outings share nothing but gear that is used up, and how much of that is needed is fixed. */
export function oneOuting(plan: ResolvedPlan, outing: string): ResolvedPlan {
  return {
    ...plan,
    outings: plan.outings.filter(({ id }) => id === outing),
    steps: plan.steps.filter((step) => step.outing === outing),
  };
}

/** Some of its steps. */
export function onlySteps(plan: ResolvedPlan, ids: readonly string[]): ResolvedPlan {
  const wanted = new Set(ids);
  return { ...plan, steps: plan.steps.filter(({ id }) => wanted.has(id)) };
}

/** So many of one item on hand; with none it is not in the catalog, so that no closest fit is made of it. */
export function withOnHand(plan: ResolvedPlan, id: string, onHand: number): ResolvedPlan {
  return withStock(plan, new Map([[id, onHand]]));
}

/** The same of several items at once. */
export function withStock(plan: ResolvedPlan, stock: ReadonlyMap<string, number>): ResolvedPlan {
  const changed = <T extends Carried>(items: ReadonlyMap<string, T>): Map<string, T> =>
    new Map(
      [...items].flatMap(([id, item]): [string, T][] => {
        const onHand = stock.get(id) ?? item.onHand;
        return onHand === 0 && stock.has(id) ? [] : [[id, onHand === item.onHand ? item : { ...item, onHand }]];
      }),
    );
  const [tools, extensions] = [changed(plan.tools), changed(plan.extensions)];
  const [sockets, gear] = [changed(plan.sockets), changed(plan.gear)];
  const carried = new Map<string, Carried>([...tools, ...extensions, ...sockets, ...gear]);
  return { ...plan, tools, extensions, sockets, gear, carried };
}

/** Wishes that concern one outing. */
export function wishesOn(wishes: BagWishes, outing: string): BagWishes {
  const here = (wish: { outing?: string }): boolean => wish.outing === undefined || wish.outing === outing;
  return { keep: wishes.keep.filter(here), forbid: wishes.forbid.filter(here), spares: wishes.spares.filter(here) };
}

/** Wishes with no more than so many of one item kept. */
export function keepingAtMost({ keep, forbid, spares }: BagWishes, id: string, most: number): BagWishes {
  return {
    keep: keep.flatMap((wish) => {
      if (wish.id !== id) return [wish];
      return most === 0 ? [] : [{ ...wish, quantity: Math.min(wish.quantity, most) }];
    }),
    forbid: most === 0 ? forbid.filter((wish) => wish.id !== id) : forbid,
    spares: most === 0 ? spares.filter((wish) => wish.id !== id) : spares,
  };
}

/** Pieces of each item of an outing over all its bags, in the order of the catalog. */
export function packedPieces(plan: ResolvedPlan, outing: BagOuting): Map<string, number> {
  const packed = new Map<string, number>();
  for (const id of plan.carried.keys()) {
    const quantity = outing.items.reduce((sum, item) => sum + (item.id === id ? item.quantity : 0), 0);
    if (quantity > 0) packed.set(id, quantity);
  }
  return packed;
}
