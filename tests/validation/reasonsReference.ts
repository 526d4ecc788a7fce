/** What the exhaustive search of `tests/reference` says of a plan with something of it taken away or lifted. */
import type { Minimised, Tolerance } from '../../shared-types/bag.ts';
import type { Limit } from '../../shared-types/bagReasons.ts';
import type { Plan } from '../../shared-types/plan.ts';
import { plainAsk } from '../reference/ask.ts';
import { leastBag } from '../reference/exhaustive.ts';

/** One outing, and of its steps all or the named ones. */
export function outingOf(plan: Plan, outing: string, steps?: readonly string[]): Plan {
  return {
    ...plan,
    outings: plan.outings.filter(({ id }) => id === outing),
    steps: plan.steps.filter((step) => step.outing === outing && (steps === undefined || steps.includes(step.id))),
  };
}

/** So many of some items on hand; what is not named keeps its own. */
export function stocked(plan: Plan, onHand: ReadonlyMap<string, number>): Plan {
  const set = <T extends { id: string; onHand: number }>(items: readonly T[]): T[] =>
    items.map((item) => ({ ...item, onHand: onHand.get(item.id) ?? item.onHand }));
  const { catalog } = plan;
  return {
    ...plan,
    catalog: {
      ...catalog,
      sockets: set(catalog.sockets),
      extensions: set(catalog.extensions),
      drivers: set(catalog.drivers),
      torqueTools: set(catalog.torqueTools),
      carryGear: set(catalog.carryGear),
    },
  };
}

/** Every item with exactly so many on hand, none of those not named. */
export function stockedOnly(plan: Plan, onHand: ReadonlyMap<string, number>): Plan {
  const { sockets, extensions, drivers, torqueTools, carryGear } = plan.catalog;
  const all = [sockets, extensions, drivers, torqueTools, carryGear].flat();
  return stocked(plan, new Map(all.map(({ id }) => [id, onHand.get(id) ?? 0])));
}

/** Without one limit, or with it at a figure in the engine's unit. */
export function lifted(plan: Plan, limit: Limit, figure: number | null = null): Plan {
  if (limit.kind === 'stock') return stocked(plan, new Map([[limit.id, figure ?? 9]]));
  if (limit.kind === 'slot') {
    const apart = ({ slot, ...step }: Plan['steps'][number]): Plan['steps'][number] =>
      slot === undefined || slot === limit.slot ? step : { ...step, slot };
    return { ...plan, steps: plan.steps.map(apart) };
  }
  if (!('bag' in limit)) throw new Error('a wish is no matter of the plan');
  const unit = { massMax: ' kg', volumeMax: ' L', sizeMax: ' mm', itemsMax: '', tetherPoints: '' }[limit.kind];
  const bags = plan.catalog.bags.map((bag) => {
    if (bag.id !== limit.bag) return bag;
    const { [limit.kind]: _lifted, ...rest } = bag;
    return figure === null ? rest : { ...rest, [limit.kind]: unit === '' ? figure : `${figure}${unit}` };
  });
  return { ...plan, catalog: { ...plan.catalog, bags } };
}

/** The least that an exhaustive search finds; null where nothing does. */
export function leastOf(plan: Plan, minimise: Minimised, tolerance: Tolerance = 'nothing'): number | null {
  return leastBag(plan, plainAsk(minimise, { tolerance })).value;
}

/** Whether two costs are one, to the last digits of a sum. */
export function sameCost(a: number | null, b: number | null): boolean {
  if (a === null || b === null) return a === b;
  return Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b));
}
