/**
 * A greedy bag, as somebody in a hurry packs: step by step in the order of the plan, each time the stack that adds the
 * least to what is already packed; where a loss is to be stood, then for each piece packed and each step without a
 * stack when that piece is gone, the stack that adds the least again. Everything goes into the largest bag without role
 * or limit of size; its limits are not asked, so the greedy bag may weigh even less than one that may be packed.
 */
import type { Ask } from '../../reference/ask.ts';
import { costOf, ownBagCost } from '../../reference/limits.ts';
import { gearPacked, stepsOf } from '../../reference/needs.ts';
import { holdJob, stepJob } from '../../reference/rules.ts';
import type { Job } from '../../reference/rules.ts';
import { pieceStacks } from '../../reference/secondSolver/stacks.ts';
import type { Counts } from '../../reference/secondSolver/stacks.ts';
import { readStock } from '../../reference/stock.ts';
import type { Carried, Stock } from '../../reference/stock.ts';
import type { GeneratedTask } from '../../reference/tasks/generateTask.ts';

type Packed = Map<string, number>;

interface Work {
  role: string;
  slot: string | null;
  stacks: Counts[];
  holds: Counts[] | null;
}

function added(counts: readonly Counts[]): Packed {
  const total: Packed = new Map();
  for (const one of counts) for (const [id, count] of one) total.set(id, (total.get(id) ?? 0) + count);
  return total;
}

/** The choice, within stock, that adds the least cost to what is packed. */
function cheapest(
  { stacks, holds }: Work,
  packed: ReadonlyMap<string, number>,
  { stock, cost, others }: { stock: Stock; cost: (id: string) => number; others: Packed },
): Packed | null {
  let best: { counts: Packed; extra: number } | null = null;
  const extraOf = (counts: Counts): number => {
    let extra = 0;
    for (const [id, count] of counts) {
      const need = count + (others.get(id) ?? 0);
      if (need > (stock.carried.get(id)?.onHand ?? 0)) return Infinity;
      extra += Math.max(0, need - (packed.get(id) ?? 0)) * cost(id);
    }
    return extra;
  };
  // A hold is chosen for the best few stacks only: all pairs would be too many.
  const ranked = stacks
    .map((counts) => ({ counts, extra: extraOf(counts) }))
    .filter(({ extra }) => extra < Infinity)
    .toSorted((a, b) => a.extra - b.extra);
  for (const { counts, extra } of ranked.slice(0, holds === null ? 1 : 5)) {
    for (const hold of holds ?? [new Map<string, number>()]) {
      const both = added([counts, hold]);
      const total = holds === null ? extra : extraOf(both);
      if (total < (best?.extra ?? Infinity)) best = { counts: both, extra: total };
    }
  }
  return best?.counts ?? null;
}

const pack = (packed: Packed, counts: Counts, others: Counts = new Map()): void => {
  for (const [id, count] of counts) packed.set(id, Math.max(packed.get(id) ?? 0, count + (others.get(id) ?? 0)));
};

/** What the outing's greedy bag holds; null where a step is left without a stack. */
function packOuting(
  works: readonly Work[],
  stock: Stock,
  cost: (id: string) => number,
  losses: boolean,
): Packed | null {
  const packed: Packed = new Map();
  const bySlot = new Map<string, Map<string, Packed>>();
  for (const work of works) {
    const roles = work.slot === null ? new Map<string, Packed>() : (bySlot.get(work.slot) ?? new Map<string, Packed>());
    if (work.slot !== null) bySlot.set(work.slot, roles);
    const others = added([...roles].filter(([role]) => role !== work.role).map(([, counts]) => counts));
    const counts = cheapest(work, packed, { stock, cost, others });
    if (counts === null) return null;
    const own = roles.get(work.role) ?? new Map<string, number>();
    pack(own, counts);
    roles.set(work.role, own);
    pack(packed, counts, others);
  }
  const serves = (left: Packed, list: readonly Counts[]): boolean =>
    list.some((counts) => [...counts].every(([id, count]) => count <= (left.get(id) ?? 0)));
  for (let grew = losses; grew;) {
    grew = false;
    for (const lost of [...packed.keys()]) {
      const left = new Map([...packed, [lost, (packed.get(lost) ?? 0) - 1]]);
      for (const work of works) {
        if (work.holds === null && serves(left, work.stacks)) continue;
        const others: Packed = new Map([[lost, 1]]);
        const counts = cheapest(work, packed, { stock, cost, others });
        if (counts === null) return null;
        const before = [...packed.values()].reduce((sum, one) => sum + one, 0);
        for (const [id, count] of counts) packed.set(id, Math.max(packed.get(id) ?? 0, count + (id === lost ? 1 : 0)));
        grew ||= [...packed.values()].reduce((sum, one) => sum + one, 0) > before;
      }
    }
  }
  return packed;
}

/** The cost of the greedy bag in kg, pieces or litres; null where it strands. */
export function greedyBag({ plan }: GeneratedTask, ask: Ask, stacksMax: number): number | null {
  const stock = readStock(plan);
  const cost = (id: string): number => costOf(stock.carried.get(id) as Carried, ask.minimise);
  let total = 0;
  let written = 0;
  for (const outing of plan.outings) {
    const known = new Map<string, Counts[]>();
    const stacksOf = (job: Job): Counts[] => {
      const key = JSON.stringify(job);
      const stacks = known.get(key) ?? pieceStacks(stock, job, stacksMax - written);
      if (!known.has(key)) written += stacks.length;
      known.set(key, stacks);
      return stacks;
    };
    const works = stepsOf(plan, outing.id).flatMap((step): Work[] => {
      const job = stepJob(plan, step);
      const holding = holdJob(plan, step);
      if (job === null) return [];
      return [
        {
          role: step.role,
          slot: step.slot ?? null,
          stacks: stacksOf(job),
          holds: holding === null ? null : stacksOf(holding),
        },
      ];
    });
    const packed = packOuting(works, stock, cost, ask.tolerance !== 'nothing');
    if (packed === null) return null;
    const gear = gearPacked(plan, stock, ask, outing.id);
    const bags = outing.bags.flatMap((id) => stock.bags.filter((bag) => bag.id === id && bag.role === null));
    const bag = bags.toSorted((a, b) => b.massMaxKg - a.massMaxKg)[0];
    for (const [id, count] of [...packed, ...gear]) total += count * cost(id);
    total += bag === undefined ? 0 : ownBagCost(bag, ask.minimise);
  }
  return total;
}
