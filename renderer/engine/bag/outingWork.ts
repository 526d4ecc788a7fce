import type { BagWishes, Tolerance } from '../../../shared-types/bag.ts';
import type { Carried, ResolvedBag, ResolvedOuting, ResolvedPlan, ResolvedStep } from '../plan/resolved.ts';
import { possiblePieces } from '../stack/possible.ts';
import type { StackParts, StackTask } from '../stack/stackTask.ts';
import { holdTask, stackIds, stackTask } from '../stack/stackTask.ts';
import type { StackStock, Ways } from '../stack/ways.ts';
import { stockOf, waysWhenAsked } from '../stack/ways.ts';
import { atMost } from '../tolerance.ts';
import type { Counts } from './counts.ts';
import { addedUp, countsOf } from './counts.ts';
import { forbiddenOn, keptOn, sparesOn } from './wishes.ts';

/** One way to do a step's own work, or to hold against it. */
export interface Choice {
  parts: StackParts;
  ids: string[];
  counts: Counts;
}

/** A stack as a choice. */
export function choiceOf(parts: StackParts): Choice {
  const ids = stackIds(parts);
  return { parts, ids, counts: countsOf(ids) };
}

/** Steps that ask the same of the bag: one role, one slot, the same stacks and holds. */
export interface StepGroup {
  steps: ResolvedStep[];
  role: string;
  /** Null where nothing else runs at the same time. */
  slot: string | null;
  ways: Ways;
  /** Null where nothing is held. */
  holds: Ways | null;
}

/** What one outing asks of its bags. */
export interface OutingWork {
  outing: ResolvedOuting;
  bags: ResolvedBag[];
  /** Its steps, in the order of the plan. */
  steps: ResolvedStep[];
  groups: StepGroup[];
  /** Gear that must lie in the outing's bags: what the steps need, and spares. */
  gear: Counts;
  /** Pieces and gear of which at least so many are packed. */
  keep: Counts;
  tolerance: Tolerance;
  /** What stacks may be made of: the catalog less what is forbidden. */
  stock: StackStock;
  forbidden: ReadonlySet<string>;
  /** Whether a bag may hold an item at all: by its size, and for a role's bag by what that role's steps use (rule 9). */
  admits: (bag: ResolvedBag, item: Carried) => boolean;
  /** The second of the two alone. */
  admitsRole: (bag: ResolvedBag, item: Carried) => boolean;
}

/** What is asked of a bag beside its steps. */
export interface Asked {
  tolerance: Tolerance;
  wishes: BagWishes;
}

/** What one outing asks: its steps with every stack that serves them, its bags, its gear. */
export function outingWork(plan: ResolvedPlan, outing: ResolvedOuting, { tolerance, wishes }: Asked): OutingWork {
  const steps = plan.steps.filter((step) => step.outing === outing.id);
  const forbidden = forbiddenOn(wishes, outing.id);
  const stock = stockLess(plan, forbidden);
  const groups = groupSteps(stock, plan, steps);
  const bags = outing.bags.flatMap((id) => plan.bags.get(id) ?? []);
  const inRole = itemsByRole(stock, steps, bags, groups);
  const admitsRole = (bag: ResolvedBag, item: Carried): boolean =>
    bag.role === null || (inRole.get(bag.role)?.has(item.id) ?? false);
  const needed = gearOf(steps);
  return {
    outing,
    bags,
    steps,
    groups: slotsOfOneRoleRunAlone(groups),
    gear: addedUp([needed, sparesOn(wishes, outing.id, needed)]),
    keep: keptOn(wishes, outing.id),
    tolerance,
    stock,
    forbidden,
    admits: (bag, item) =>
      (bag.sizeMaxMm === null || item.sizeMm === null || atMost(item.sizeMm, bag.sizeMaxMm)) && admitsRole(bag, item),
    admitsRole,
  };
}

function stockLess(plan: ResolvedPlan, forbidden: ReadonlySet<string>): StackStock {
  return forbidden.size === 0 ? plan : stockOf(plan, (id) => !forbidden.has(id));
}

/** Bags a role draws from: its own and those of nobody in particular. */
export function drawsFrom(bag: ResolvedBag, role: string): boolean {
  return bag.role === null || bag.role === role;
}

/** Groups of one slot work at the same time, every other by itself. */
export function atOneTime(groups: readonly StepGroup[]): StepGroup[][] {
  const slots = new Map<string, StepGroup[]>();
  const all: StepGroup[][] = [];
  for (const group of groups) {
    const { slot } = group;
    const known = slot === null ? undefined : slots.get(slot);
    if (known) known.push(group);
    else {
      const together = [group];
      all.push(together);
      if (slot !== null) slots.set(slot, together);
    }
  }
  return all;
}

/** Gear of a step: what it lists, and what it moves out of the bag (rule 15). */
export function gearOfStep(step: ResolvedStep): { id: string; quantity: number }[] {
  return [...step.gear, ...step.moves.filter((move) => move.from === 'bag')];
}

function gearOf(steps: readonly ResolvedStep[]): Counts {
  return addedUp(steps.flatMap(gearOfStep).map(({ id, quantity }) => new Map([[id, quantity]])));
}

/** What two steps have in common where they have the same stacks, whatever their names. */
function askedKey(task: StackTask | null): string | null {
  if (!task) return null;
  const { fastener, shown: _shown, ...asked } = task;
  return JSON.stringify([asked, fastener.headForm, fastener.acrossFlats]);
}

/** Fasteners come in patterns: steps of one role and slot that ask the same are one group, searched once. */
function groupSteps(stock: StackStock, plan: ResolvedPlan, steps: readonly ResolvedStep[]): StepGroup[] {
  const groups = new Map<string, StepGroup>();
  const known = new Map<string, Ways>();
  const waysOf = (task: StackTask): Ways => {
    const key = askedKey(task) ?? '';
    const found = known.get(key) ?? waysWhenAsked(stock, task);
    known.set(key, found);
    return found;
  };
  for (const step of steps) {
    const task = stackTask(plan, step);
    if (!task) continue;
    const holding = holdTask(plan, step);
    const key = JSON.stringify([step.role, step.slot, askedKey(task), askedKey(holding)]);
    const same = groups.get(key);
    if (same) same.steps.push(step);
    else {
      const { role, slot } = step;
      groups.set(key, { steps: [step], role, slot, ways: waysOf(task), holds: holding && waysOf(holding) });
    }
  }
  return [...groups.values()];
}

function slotsOfOneRoleRunAlone(groups: readonly StepGroup[]): StepGroup[] {
  return groups.map((group) => {
    const shared = groups.some((other) => other.slot === group.slot && other.role !== group.role);
    return shared ? group : { ...group, slot: null };
  });
}

/** For each role that has a bag of its own: gear of its steps, and every piece of a possible stack or hold of theirs. */
function itemsByRole(
  stock: StackStock,
  steps: readonly ResolvedStep[],
  bags: readonly ResolvedBag[],
  groups: readonly StepGroup[],
): Map<string, Set<string>> {
  const items = new Map<string, Set<string>>();
  for (const role of new Set(bags.flatMap((bag) => bag.role ?? []))) {
    const own = groups
      .filter((group) => group.role === role)
      .flatMap(({ ways, holds }) => (holds ? [ways, holds] : [ways]));
    const pieces = [...new Set(own)].flatMap((ways) => [...possiblePieces(stock, ways.task)]);
    const gear = steps.filter((step) => step.role === role).flatMap((step) => gearOfStep(step).map(({ id }) => id));
    items.set(role, new Set([...pieces, ...gear]));
  }
  return items;
}
