import type { BagWishes, ItemWish } from '../../../../shared-types/bag.ts';
import type { Limit } from '../../../../shared-types/bagReasons.ts';
import type { ResolvedBag, ResolvedPlan } from '../../plan/resolved.ts';
import { withStock } from './derived.ts';

/** A plan with what is asked beyond it. */
export interface Wished {
  plan: ResolvedPlan;
  wishes: BagWishes;
}

/** The same with some limits lifted, or set to what `to` says of them. */
export function relaxed(
  { plan, wishes }: Wished,
  limits: readonly Limit[],
  to: (limit: Limit) => number | null = () => null,
): Wished {
  const bags = new Map(plan.bags);
  const stock = new Map<string, number>();
  const slots = new Set<string>();
  const { keep, forbid, spares } = wishes;
  const wished: BagWishes = { keep, forbid, spares };
  for (const limit of limits) {
    const eased = to(limit);
    if (limit.kind === 'stock') stock.set(limit.id, eased ?? plentyOf(plan, wishes));
    else if (limit.kind === 'slot') slots.add(limit.slot);
    else if ('bag' in limit) {
      const bag = bags.get(limit.bag);
      if (bag) bags.set(bag.id, { ...bag, [bagField[limit.kind]]: eased });
    } else if (limit.kind === 'forbid') wished.forbid = wished.forbid.filter(({ id }) => id !== limit.id);
    else wished[limit.kind] = wishesOfAtMost(wished[limit.kind], limit.id, eased ?? 0);
  }
  const steps = plan.steps.map((step) => (step.slot !== null && slots.has(step.slot) ? { ...step, slot: null } : step));
  const stocked = stock.size > 0 ? withStock(plan, stock) : plan;
  return { plan: { ...stocked, bags, steps }, wishes: wished };
}

const bagField = {
  massMax: 'massMaxKg',
  volumeMax: 'volumeMaxL',
  itemsMax: 'itemsMax',
  sizeMax: 'sizeMaxMm',
  tetherPoints: 'tetherPoints',
} as const satisfies Record<string, keyof ResolvedBag>;

function wishesOfAtMost(wishes: readonly ItemWish[], id: string, most: number): ItemWish[] {
  return wishes.flatMap((wish) => {
    if (wish.id !== id) return [wish];
    return most === 0 ? [] : [{ ...wish, quantity: Math.min(wish.quantity, most) }];
  });
}

/** A stack takes at most three of a piece and its hold as many; a role's bags, a slot and a loss no more than this. */
const mostAtOnce = 7;

/** More of any item than an answer can use: what stacks take at once, what is wished for, what steps list. */
function plentyOf(plan: ResolvedPlan, { keep, spares }: BagWishes): number {
  const roles = new Set(plan.steps.map(({ role }) => role)).size;
  const bags = Math.max(1, ...plan.outings.map((outing) => outing.bags.length));
  const counted = [...keep, ...spares, ...plan.steps.flatMap((step) => [...step.gear, ...step.moves])];
  return counted.reduce((sum, { quantity }) => sum + quantity, mostAtOnce * Math.max(1, roles) * bags);
}
