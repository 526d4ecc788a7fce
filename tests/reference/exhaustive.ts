/**
 * The least bag by brute force: every sub-multiset of the stock for each outing, cheapest first, and every way to lay
 * it in that outing's bags. Exact for plans of about a dozen pieces; what is passed over is passed over by proof:
 * - outings share nothing but the stock of consumed gear, whose need is fixed, so each outing is searched alone;
 * - gear beyond the need, and more copies of a part than the roles can use at once, cost and serve nothing;
 * - a choice of stacks that needs another's pieces and more is never better than the other;
 * - a multiset that would not do if all of it lay in one common bag without limits does in no bags;
 * - limits and costs only grow as pieces are laid in;
 * - where a loss is to be stood, one more of a piece than all roles at once or than any one step uses is enough (of a
 *   bag: as many in each); a multiset that does not stand the loss of a piece does not stand that of the bag it lies in.
 *
 * Readings where the rules leave room: an outing of one bag, in which no step turns anything, stands its loss.
 */
import type { BagOuting, Minimised } from '../../shared-types/bag.ts';
import type { Plan } from '../../shared-types/plan.ts';
import { askOf, keptOn, stockOn } from './ask.ts';
import type { Ask } from './ask.ts';
import type { BreakName } from './breaks.ts';
import { leavesEnough, mostOfAnyStep, standsBagLoss, standsPieceLoss, vectorsWithoutHold } from './loss.ts';
import { choicesOf, gearOf, gearPacked, gearWithinStock, momentsOf, possibleByRole, stepsOf } from './needs.ts';
import type { Choice, StepNeeds } from './needs.ts';
import { brokenLimits, costOf, ownBagCost } from './limits.ts';
import { stackIds } from './rules.ts';
import { serve, vectorsOf } from './serving.ts';
import type { Pieces, Vectors } from './serving.ts';
import { readStock } from './stock.ts';
import type { Bag, Carried, Stock } from './stock.ts';

export interface LeastBag {
  feasible: boolean;
  value: number | null;
  outings: BagOuting[];
}

/** One id with its pieces to lay into some of the bags. */
interface Load {
  item: Carried;
  count: number;
  bags: number[];
}

interface Laid {
  cost: number;
  /** Pieces by load, then by bag. */
  counts: number[][];
  chosen: Map<StepNeeds, Choice>;
}

interface Search {
  minimise: Minimised;
  broken: BreakName | undefined;
  bags: Bag[];
  accept: (counts: number[][]) => Map<StepNeeds, Choice> | null;
}

const sum = (numbers: readonly number[]): number => numbers.reduce((total, one) => total + one, 0);

/** Every way to split a count over bags. */
function* splits(count: number, bags: readonly number[]): Generator<[bag: number, count: number][]> {
  const [bag, ...rest] = bags;
  if (bag === undefined) {
    if (count === 0) yield [];
    return;
  }
  for (let here = count; here >= 0; here--) {
    for (const others of splits(count - here, rest)) yield [[bag, here], ...others];
  }
}

function layIn(search: Search, loads: readonly Load[], baseCost: number, costBelow: number): Laid | null {
  const { bags, minimise, broken } = search;
  const counts = loads.map(() => bags.map(() => 0));
  let best: Laid | null = null;
  const inside = (bag: number, upTo: number): { item: Carried; count: number }[] =>
    loads.slice(0, upTo).map((load, index) => ({ item: load.item, count: counts[index]?.[bag] ?? 0 }));
  const cost = (): number =>
    baseCost +
    sum(
      bags.map((bag, index) => (counts.some((row) => (row[index] ?? 0) > 0) ? ownBagCost(bag, minimise, broken) : 0)),
    );
  const place = (at: number): void => {
    const costNow = cost();
    if (costNow >= (best?.cost ?? costBelow)) return;
    const load = loads[at];
    if (load === undefined) {
      const chosen = search.accept(counts);
      if (chosen !== null) best = { cost: costNow, counts: counts.map((row) => [...row]), chosen };
      return;
    }
    for (const split of splits(load.count, load.bags)) {
      const row = bags.map(() => 0);
      for (const [bag, count] of split) row[bag] = count;
      counts[at] = row;
      if (bags.every((bag, index) => brokenLimits(bag, inside(index, at + 1), broken).length === 0)) place(at + 1);
    }
    counts[at] = bags.map(() => 0);
  };
  place(0);
  return best;
}

/** The most pieces of each id that all roles at once could use. */
function usefulCounts(
  ids: readonly string[],
  steps: readonly StepNeeds[],
  vectors: Vectors,
  broken?: BreakName,
): number[] {
  return ids.map((_, index) => {
    const byRole = new Map<string, number>();
    for (const step of steps) {
      const most = Math.max(0, ...(vectors.get(step) ?? []).map(({ needs }) => needs[index] ?? 0));
      const before = byRole.get(step.step.role) ?? 0;
      byRole.set(step.step.role, broken === 'slotSteps' ? before + most : Math.max(before, most));
    }
    return sum([...byRole.values()]);
  });
}

/** Every multiset with at least and at most so many of each. */
function* subMultisets(least: readonly number[], most: readonly number[], at = 0): Generator<number[]> {
  if (at === most.length) {
    yield [];
    return;
  }
  for (let count = least[at] ?? 0; count <= (most[at] ?? 0); count++)
    for (const others of subMultisets(least, most, at + 1)) yield [count, ...others];
}

function answerOf(
  search: Search,
  outingId: string,
  loads: readonly Load[],
  laid: Laid,
  { steps, spare }: { steps: readonly StepNeeds[]; spare: boolean },
): BagOuting {
  const usedBy = (needs: StepNeeds, id: string): boolean =>
    (laid.chosen.get(needs)?.counts.has(id) ?? false) || gearOf(needs.step).has(id);
  const items = loads.flatMap(({ item }, index) =>
    search.bags.flatMap((bag, at) => {
      const quantity = laid.counts[index]?.[at] ?? 0;
      const using = steps
        .filter((needs) => usedBy(needs, item.id))
        .filter(({ step }) => bag.role === null || bag.role === step.role || gearOf(step).has(item.id));
      // A spare is there for the steps that could use it.
      const able = steps.filter(({ choices }) => spare && choices.some(({ counts }) => counts.has(item.id)));
      const because = (using.length > 0 ? using : able).map(({ step }) => step.id);
      return quantity === 0 ? [] : [{ id: item.id, quantity, bag: bag.id, because }];
    }),
  );
  const pieceKg = sum(loads.map((load) => load.count * load.item.massKg));
  const ownKg = sum(search.bags.filter((bag) => items.some((item) => item.bag === bag.id)).map((bag) => bag.massKg));
  return {
    id: outingId,
    massKg: pieceKg + ownKg,
    items,
    steps: steps.map((needs) => {
      const choice = laid.chosen.get(needs);
      return {
        id: needs.step.id,
        stack: choice?.stack ? stackIds(choice.stack) : [],
        hold: choice?.hold ? stackIds(choice.hold) : null,
        setting: choice?.settingNm == null ? null : { value: choice.settingNm, unit: 'N·m' },
      };
    }),
  };
}

/** How many of each part to try at most: what all roles at once use, more for a loss to stand, or what is kept. */
function triedCounts(
  asked: {
    ask: Ask;
    bags: number;
    parts: readonly Carried[];
    kept: ReadonlyMap<string, number>;
    broken: BreakName | undefined;
  },
  useful: readonly number[],
  ofOneStep: readonly number[],
): number[] {
  const { ask, bags, parts, kept, broken } = asked;
  return parts.map(({ id, onHand }, index) => {
    const [atOnce, alone] = [useful[index] ?? 0, ofOneStep[index] ?? 0];
    const forLoss = {
      nothing: atOnce,
      piece: Math.max(atOnce, alone > 0 ? alone + 1 : 0),
      bag: Math.max(atOnce, alone) * bags,
    };
    const ofUse = forLoss[ask.tolerance];
    const most = broken === 'keepOnTop' ? ofUse + (kept.get(id) ?? 0) : Math.max(ofUse, kept.get(id) ?? 0);
    return broken === 'onHand' ? most : Math.min(most, onHand);
  });
}

function leastForOuting(
  plan: Plan,
  stock: Stock,
  outing: Plan['outings'][number],
  ask: Ask,
  broken?: BreakName,
): { cost: number; answer: BagOuting } | null {
  const { minimise, tolerance } = ask;
  const steps = stepsOf(plan, outing.id, broken).map((step) => ({
    step,
    choices: choicesOf(plan, stock, step, broken),
  }));
  if (steps.some(({ choices }) => choices.length === 0)) return null;
  const bags = outing.bags.flatMap((id) => stock.bags.filter((bag) => bag.id === id));
  const parts = [...stock.tools, ...stock.extensions, ...stock.sockets];
  const ids = parts.map((part) => part.id);
  const kept = keptOn(ask, outing.id, plan.outings[0]?.id ?? '', broken);
  const keptParts = ids.map((id) => kept.get(id) ?? 0);
  if (parts.some(({ onHand }, index) => (keptParts[index] ?? 0) > onHand) && broken !== 'onHand') return null;
  const vectors: Vectors = new Map(steps.map((step) => [step, vectorsOf(step, ids)]));
  const moments = momentsOf(steps);
  const roles = [...new Set(steps.map(({ step }) => step.role))];
  const possible = possibleByRole(steps);
  const every = bags.map((_, index) => index);
  const partBags = (id: string): number[] =>
    every.filter(
      (at) => bags[at]?.role == null || broken === 'roleDraw' || possible.get(bags[at].role)?.has(id) === true,
    );
  const gearBags = (id: string): number[] =>
    every.filter(
      (at) =>
        bags[at]?.role == null ||
        broken === 'roleContents' ||
        steps.some(({ step }) => step.role === bags[at]?.role && gearOf(step, broken).has(id)),
    );
  const gearLoads: Load[] = [...gearPacked(plan, stock, ask, outing.id, broken)].flatMap(([id, count]) => {
    const item = stock.carried.get(id);
    return item === undefined ? [] : [{ item, count, bags: gearBags(id) }];
  });

  /** Pieces by whom they serve, from the counts by load and bag; the part loads come after the gear. */
  const inBags = (present: readonly number[], counts: readonly number[][]): Pieces => {
    const pieces: Pieces = { shared: ids.map(() => 0), own: new Map(roles.map((role) => [role, ids.map(() => 0)])) };
    present.forEach((partIndex, position) => {
      bags.forEach((bag, at) => {
        const count = counts[gearLoads.length + position]?.[at] ?? 0;
        const target = bag.role === null || broken === 'roleDraw' ? pieces.shared : pieces.own.get(bag.role);
        if (target !== undefined) target[partIndex] = (target[partIndex] ?? 0) + count;
      });
    });
    return pieces;
  };
  /** Parts by bag. */
  const byBag = (present: readonly number[], counts: readonly number[][]): number[][] =>
    bags.map((_, at) => {
      const inside = ids.map(() => 0);
      for (const [position, partIndex] of present.entries())
        inside[partIndex] = counts[gearLoads.length + position]?.[at] ?? 0;
      return inside;
    });
  const minus = (counts: readonly number[], less: readonly number[]): number[] =>
    counts.map((count, index) => count - (less[index] ?? 0));
  /** What the steps have of a multiset: of what is only kept, with one rule broken, nothing. */
  const free = (counts: readonly number[]): number[] =>
    broken === 'keepOnTop' ? minus(counts, keptParts) : [...counts];

  const lossVectors = broken === 'lossHold' ? vectorsWithoutHold(steps, ids) : vectors;
  const most = triedCounts(
    { ask, bags: bags.length, parts, kept, broken },
    usefulCounts(ids, steps, vectors, broken),
    mostOfAnyStep(ids, vectors),
  );
  const gearCost = sum(gearLoads.map((load) => load.count * costOf(load.item, minimise)));
  const sets = [...subMultisets(keptParts, most)]
    .filter((counts) => serve(moments, vectors, { shared: free(counts), own: new Map() }, broken) !== null)
    .filter(
      (counts) =>
        tolerance === 'nothing' ||
        (tolerance === 'bag' && broken === 'bagLoss') ||
        standsPieceLoss(counts, moments, lossVectors, broken),
    )
    .map((counts) => ({
      counts,
      cost: gearCost + sum(counts.map((count, index) => count * costOf(parts[index] as Carried, minimise))),
    }))
    .toSorted((a, b) => a.cost - b.cost);
  let best: { cost: number; answer: BagOuting } | null = null;
  for (const { counts, cost } of sets) {
    if (best !== null && cost >= best.cost) break;
    const present = counts.flatMap((count, index) => (count > 0 ? [index] : []));
    const loads = [
      ...gearLoads,
      ...present.map((index) => ({
        item: parts[index] as Carried,
        count: counts[index] ?? 0,
        bags: partBags(ids[index] ?? ''),
      })),
    ];
    const accept = (laid: number[][]): Map<StepNeeds, Choice> | null => {
      if (tolerance === 'bag' && !standsBagLoss(byBag(present, laid), lossVectors, broken)) return null;
      const pieces = inBags(present, laid);
      if (tolerance === 'piece' && broken === 'lossHands' && !leavesEnough(pieces, moments, vectors)) return null;
      return serve(moments, vectors, { ...pieces, shared: free(pieces.shared) }, broken);
    };
    const search = { minimise, broken, bags, accept };
    const laid = layIn(search, loads, cost, best?.cost ?? Infinity);
    if (laid !== null)
      best = {
        cost: laid.cost,
        answer: answerOf(search, outing.id, loads, laid, { steps, spare: tolerance !== 'nothing' }),
      };
  }
  return best;
}

export function leastBag(plan: Plan, asked: Ask | Minimised, broken?: BreakName): LeastBag {
  const ask = askOf(asked);
  const stock = readStock(plan);
  const infeasible = { feasible: false, value: null, outings: [] };
  if (!gearWithinStock(plan, stock, ask, broken)) return infeasible;
  const outings: BagOuting[] = [];
  let value = 0;
  for (const outing of plan.outings) {
    const least = leastForOuting(plan, stockOn(stock, ask, outing.id, broken), outing, ask, broken);
    if (least === null) return infeasible;
    value += least.cost;
    outings.push(least.answer);
  }
  return { feasible: true, value, outings };
}
