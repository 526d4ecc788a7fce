/**
 * The plain model of a whole plan, written down from the rules of command `bag` without any of the planner's thoughts:
 * pieces of each item in each bag, one choice of stack and of hold for each step, slots with what roles draw, limits,
 * and for each loss that is to be stood every step's choice once more.
 *
 * Steps that ask the same of the same role, outside slots, are written once.
 */
import type { Plan, PlanStep } from '../../../shared-types/plan.ts';
import { keptOn, stockOn } from '../ask.ts';
import type { Ask } from '../ask.ts';
import { costOf, ownBagCost } from '../limits.ts';
import { gearOf, gearPacked, gearWithinStock, stepsOf } from '../needs.ts';
import { holdJob, stepJob } from '../rules.ts';
import { readStock } from '../stock.ts';
import type { Bag, Carried, Stock } from '../stock.ts';
import { LinearProgram } from './program.ts';
import type { Term } from './program.ts';
import { pieceStacks, TooLargeError } from './stacks.ts';
import type { Counts } from './stacks.ts';

/** A column that counts the pieces of an item in a bag. */
export interface Lying {
  outing: string;
  item: Carried;
  bag: Bag;
  column: number;
}

export interface PlainModel {
  program: LinearProgram;
  lying: Lying[];
  bags: { outing: string; bag: Bag }[];
  /** Stacks and holds over all steps written down. */
  stacks: number;
}

interface Work {
  step: PlanStep;
  stacks: Counts[];
  holds: Counts[] | null;
}

/** How large a model may grow before `TooLargeError` is thrown. */
export interface Limits {
  stacksMax: number;
  columnsMax: number;
}

const noLimits: Limits = { stacksMax: Infinity, columnsMax: Infinity };

/** The costs are in grams, pieces or millilitres, so that they lie near one. */
const costScale = { mass: 1000, count: 1, volume: 1000 } as const;

/** The plain model of the plan; null where gear is short or a step has no stack at all. */
export function plainModel(plan: Plan, ask: Ask, limits: Limits = noLimits): PlainModel | null {
  const stock = readStock(plan);
  if (!gearWithinStock(plan, stock, ask)) return null;
  const model: PlainModel = { program: new LinearProgram(), lying: [], bags: [], stacks: 0 };
  for (const outing of plan.outings) {
    const own = stockOn(stock, ask, outing.id);
    const works = worksOf(plan, own, outing.id, { model, stacksMax: limits.stacksMax });
    if (works === null) return null;
    const bags = outing.bags.flatMap((id) => own.bags.filter((bag) => bag.id === id));
    if (!addOuting({ plan, ask, stock: own, outing: outing.id, bags, works, model, columnsMax: limits.columnsMax }))
      return null;
  }
  return model;
}

function worksOf(
  plan: Plan,
  stock: Stock,
  outing: string,
  { model, stacksMax }: { model: PlainModel; stacksMax: number },
): Work[] | null {
  const known = new Map<string, Counts[]>();
  const stacksOf = (job: ReturnType<typeof stepJob>): Counts[] => {
    if (job === null) return [];
    const key = JSON.stringify(job);
    const stacks = known.get(key) ?? pieceStacks(stock, job, stacksMax - model.stacks);
    if (!known.has(key)) model.stacks += stacks.length;
    known.set(key, stacks);
    return stacks;
  };
  const works: Work[] = [];
  for (const step of stepsOf(plan, outing)) {
    const job = stepJob(plan, step);
    const holding = holdJob(plan, step);
    const work = { step, stacks: stacksOf(job), holds: holding === null ? null : stacksOf(holding) };
    if (job !== null && (work.stacks.length === 0 || work.holds?.length === 0)) return null;
    works.push(work);
  }
  return works;
}

interface Site {
  plan: Plan;
  ask: Ask;
  stock: Stock;
  outing: string;
  bags: Bag[];
  works: Work[];
  model: PlainModel;
  columnsMax: number;
}

/** Only what is not one choice: a `use` step has none. */
const turning = ({ works }: Site): Work[] => works.filter(({ stacks }) => stacks.length > 0);

function addOuting(site: Site): boolean {
  const { ask, stock, outing, works, model } = site;
  const possible = possibleOf(works, stock);
  const kept = keptOn(ask, outing, site.plan.outings[0]?.id ?? '');
  const gear = gearPacked(site.plan, stock, ask, outing);
  const usable = new Set([...possible.values()].flatMap((ids) => [...ids]));
  const byItem = new Map<string, Lying[]>();
  for (const item of stock.carried.values()) {
    const isGear = stock.gear.some(({ id }) => id === item.id);
    const wanted = Math.max(gear.get(item.id) ?? 0, kept.get(item.id) ?? 0);
    if (wanted === 0 && (isGear || !usable.has(item.id))) continue;
    if (wanted > item.onHand) return false;
    const lying = layColumns(site, item, isGear, possible);
    if (lying.length === 0 && wanted > 0) return false;
    byItem.set(item.id, lying);
    const all = lying.map(({ column }): Term => [column, 1]);
    model.program.row(wanted, item.onHand, all);
  }
  const there = (id: string, of: (bag: Bag) => boolean): Term[] =>
    (byItem.get(id) ?? []).filter(({ bag }) => of(bag)).map(({ column }): Term => [column, 1]);
  addNeeds(site, there);
  addLimits(site);
  if (ask.tolerance === 'piece') addPieceLosses(site, there);
  if (ask.tolerance === 'bag') addBagLosses(site, there);
  return true;
}

type There = (id: string, of: (bag: Bag) => boolean) => Term[];

/** Ids in a stack, or in a stack with its hold, that the stock has the pieces for, by role (rule 9). */
function possibleOf(works: readonly Work[], stock: Stock): Map<string, Set<string>> {
  const byRole = new Map<string, Set<string>>();
  for (const { step, stacks, holds } of works) {
    const ids = byRole.get(step.role) ?? new Set<string>();
    byRole.set(step.role, ids);
    const add = (counts: Counts): void => counts.forEach((_, id) => ids.add(id));
    if (holds === null) stacks.forEach(add);
    else {
      const goTogether = (one: Counts, other: Counts): boolean =>
        [...one].every(([id, count]) => count + (other.get(id) ?? 0) <= (stock.carried.get(id)?.onHand ?? 0));
      for (const stack of stacks) if (holds.some((hold) => goTogether(stack, hold))) add(stack);
      for (const hold of holds) if (stacks.some((stack) => goTogether(hold, stack))) add(hold);
    }
  }
  return byRole;
}

function layColumns(
  { ask, outing, bags, works, model }: Site,
  item: Carried,
  isGear: boolean,
  possible: ReadonlyMap<string, ReadonlySet<string>>,
): Lying[] {
  const cost = costOf(item, ask.minimise) * costScale[ask.minimise];
  const may = (bag: Bag): boolean => {
    if (item.sizeMm !== null && item.sizeMm > bag.sizeMaxMm * (1 + 1e-9)) return false;
    if (bag.role === null) return true;
    if (isGear) return works.some(({ step }) => step.role === bag.role && gearOf(step).has(item.id));
    return possible.get(bag.role)?.has(item.id) === true;
  };
  const lying = bags
    .filter(may)
    .map((bag): Lying => ({ outing, item, bag, column: model.program.column({ cost, upper: item.onHand }) }));
  model.lying.push(...lying);
  return lying;
}

/** A choice of one of the stacks: for each piece what it takes, as terms. */
function choose(program: LinearProgram, stacks: readonly Counts[]): Map<string, Term[]> {
  const columns = stacks.map(() => program.column({ upper: 1 }));
  program.row(
    1,
    1,
    columns.map((column): Term => [column, 1]),
  );
  const takes = new Map<string, Term[]>();
  stacks.forEach((counts, index) => {
    for (const [id, count] of counts) {
      const known = takes.get(id) ?? [];
      takes.set(id, known);
      known.push([columns[index] ?? 0, count]);
    }
  });
  return takes;
}

/** A step's choices of stack and hold together. */
function chooseWork(program: LinearProgram, { stacks, holds }: Work): Map<string, Term[]> {
  const takes = choose(program, stacks);
  if (holds === null) return takes;
  for (const [id, terms] of choose(program, holds)) takes.set(id, [...(takes.get(id) ?? []), ...terms]);
  return takes;
}

const minus = (terms: readonly Term[]): Term[] => terms.map(([column, coefficient]): Term => [column, -coefficient]);

/** One of each kind: what steps ask, by role where that matters. */
function distinct(works: readonly Work[], key: (work: Work) => string): Work[] {
  const seen = new Map<string, Work>();
  for (const work of works) if (!seen.has(key(work))) seen.set(key(work), work);
  return [...seen.values()];
}

const identities = new WeakMap<object, number>();
let identityCount = 0;

/** A number for a list of stacks; the list of one job is one object. */
function identity(list: readonly Counts[] | null): number {
  if (list === null) return 0;
  const known = identities.get(list);
  if (known !== undefined) return known;
  identityCount += 1;
  identities.set(list, identityCount);
  return identityCount;
}

const asks = ({ stacks, holds }: Work): string => `${identity(stacks)} ${identity(holds)}`;

function addNeeds(site: Site, there: There): void {
  const { program } = site.model;
  const alone = turning(site).filter(({ step }) => step.slot === undefined);
  for (const work of distinct(alone, (one) => `${one.step.role}\n${asks(one)}`)) {
    const { role } = work.step;
    for (const [id, takes] of chooseWork(program, work)) {
      program.atLeast(0, [...there(id, (bag) => bag.role === null || bag.role === role), ...minus(takes)]);
    }
  }
  const slots = new Map<string, Work[]>();
  for (const work of turning(site)) {
    const { slot } = work.step;
    if (slot !== undefined) slots.set(slot, [...(slots.get(slot) ?? []), work]);
  }
  for (const works of slots.values()) {
    const drawn = new Map<string, Map<string, number>>();
    for (const work of distinct(works, (one) => `${one.step.role}\n${asks(one)}`)) {
      const { role } = work.step;
      for (const [id, takes] of chooseWork(program, work)) {
        const roles = drawn.get(id) ?? new Map<string, number>();
        drawn.set(id, roles);
        const draw = roles.get(role) ?? program.column({ whole: false });
        roles.set(role, draw);
        program.atLeast(0, [[draw, 1], ...there(id, (bag) => bag.role === role), ...minus(takes)]);
      }
    }
    for (const [id, roles] of drawn) {
      const draws = [...roles.values()].map((column): Term => [column, -1]);
      program.atLeast(0, [...there(id, (bag) => bag.role === null), ...draws]);
    }
  }
}

function addLimits({ ask, outing, bags, model }: Site): void {
  const { program } = model;
  for (const bag of bags) {
    model.bags.push({ outing, bag });
    const inside = model.lying.filter((one) => one.outing === outing && one.bag === bag);
    const limit = (most: number, each: (item: Carried) => number): void => {
      if (most === Infinity) return;
      // As shares of the limit, with the tolerance the contract gives it.
      const scale = most > 0 ? most : 1;
      program.atMost(
        most > 0 ? 1 + 1e-9 : 0,
        inside.map(({ item, column }): Term => [column, each(item) / scale]),
      );
    };
    limit(bag.massMaxKg, (item) => item.massKg);
    limit(bag.volumeMaxL, (item) => item.volumeL ?? 0);
    limit(bag.itemsMax, () => 1);
    limit(bag.tetherPoints, (item) => item.tethers);
    const own = ownBagCost(bag, ask.minimise) * costScale[ask.minimise];
    if (own === 0) continue;
    const used = program.column({ cost: own, upper: 1 });
    for (const { item, column } of inside)
      program.atLeast(0, [
        [used, item.onHand],
        [column, -1],
      ]);
  }
}

function requireRoom({ model, columnsMax }: Site): void {
  if (model.program.columns.length > columnsMax) throw new TooLargeError(`more than ${columnsMax} columns`);
}

/** After a loss, steps one after another with pieces from any hand: what each needs is within what is left. */
function addPieceLosses(site: Site, there: There): void {
  const { program } = site.model;
  const taken = new Map<string, number>();
  /** 1 where some of the item is taken, so that one of it may be lost. */
  const isTaken = (id: string): number => {
    const known = taken.get(id) ?? program.column({ upper: 1 });
    if (!taken.has(id))
      program.atLeast(0, [[known, site.stock.carried.get(id)?.onHand ?? 0], ...minus(there(id, () => true))]);
    taken.set(id, known);
    return known;
  };
  for (const work of distinct(turning(site), asks)) {
    const ids = new Set([...work.stacks, ...(work.holds ?? [])].flatMap((counts) => [...counts.keys()]));
    for (const lost of ids) {
      requireRoom(site);
      for (const [id, takes] of chooseWork(program, work)) {
        const less: Term[] = id === lost ? [[isTaken(lost), -1]] : [];
        program.atLeast(0, [...there(id, () => true), ...less, ...minus(takes)]);
      }
    }
  }
}

function addBagLosses(site: Site, there: There): void {
  const { program } = site.model;
  for (const work of distinct(turning(site), asks)) {
    for (const lost of site.bags) {
      requireRoom(site);
      for (const [id, takes] of chooseWork(program, work)) {
        program.atLeast(0, [...there(id, (bag) => bag !== lost), ...minus(takes)]);
      }
    }
  }
}
