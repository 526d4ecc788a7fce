import type { Carried, ResolvedBag, ResolvedOuting, ResolvedPlan, ResolvedStep } from '../plan/resolved.ts';
import { enumerateStacks } from '../stack/enumerateStacks.ts';
import { inOrder } from '../stack/order.ts';
import type { StackParts, StackTask } from '../stack/stackTask.ts';
import { holdTask, stackIds, stackTask } from '../stack/stackTask.ts';
import { atMost } from '../tolerance.ts';
import type { Counts } from './counts.ts';
import { addedUp, countsOf } from './counts.ts';

/** One way to do a step's own work, or to hold against it. */
export interface Choice {
  parts: StackParts;
  ids: string[];
  counts: Counts;
}

/** Steps that ask the same of the bag: one role, one slot, the same stacks and holds. */
export interface StepGroup {
  steps: ResolvedStep[];
  role: string;
  /** Null where nothing else runs at the same time. */
  slot: string | null;
  stacks: Choice[];
  /** Null where nothing is held. */
  holds: Choice[] | null;
}

/** What one outing asks of its bags. */
export interface OutingWork {
  outing: ResolvedOuting;
  bags: ResolvedBag[];
  groups: StepGroup[];
  /** Gear that must lie in the outing's bags. */
  gear: Counts;
  /** Whether a bag may hold an item at all: by its size, and for a role's bag by what that role's steps use (rule 9). */
  admits: (bag: ResolvedBag, item: Carried) => boolean;
  /** The second of the two alone. */
  admitsRole: (bag: ResolvedBag, item: Carried) => boolean;
}

/** What one outing asks: its steps with every stack that serves them, its bags, its gear. */
export function outingWork(plan: ResolvedPlan, outing: ResolvedOuting): OutingWork {
  const steps = plan.steps.filter((step) => step.outing === outing.id);
  const known = new Map<string, Choice[]>();
  const groups = groupSteps(steps.flatMap((step) => stepChoices(plan, step, known) ?? []));
  const inRole = itemsByRole(steps, groups);
  const admitsRole = (bag: ResolvedBag, item: Carried): boolean =>
    bag.role === null || (inRole.get(bag.role)?.has(item.id) ?? false);
  return {
    outing,
    bags: outing.bags.flatMap((id) => plan.bags.get(id) ?? []),
    groups: slotsOfOneRoleRunAlone(groups),
    gear: gearOf(steps),
    admits: (bag, item) =>
      (bag.sizeMaxMm === null || item.sizeMm === null || atMost(item.sizeMm, bag.sizeMaxMm)) && admitsRole(bag, item),
    admitsRole,
  };
}

/** Bags a role draws from: its own and those of nobody in particular. */
export function drawsFrom(bag: ResolvedBag, role: string): boolean {
  return bag.role === null || bag.role === role;
}

/** Gear of a step: what it lists, and what it moves out of the bag (rule 15). */
export function gearOfStep(step: ResolvedStep): { id: string; quantity: number }[] {
  return [...step.gear, ...step.moves.filter((move) => move.from === 'bag')];
}

function gearOf(steps: readonly ResolvedStep[]): Counts {
  return addedUp(steps.flatMap(gearOfStep).map(({ id, quantity }) => new Map([[id, quantity]])));
}

function stepChoices(plan: ResolvedPlan, step: ResolvedStep, known: Map<string, Choice[]>): StepGroup | null {
  const task = stackTask(plan, step);
  if (!task) return null;
  const holding = holdTask(plan, step);
  return {
    steps: [step],
    role: step.role,
    slot: step.slot,
    stacks: choices(plan, task, known),
    holds: holding && choices(plan, holding, known),
  };
}

/** Fasteners come in patterns: what one step has searched, the next that asks the same takes over. */
function choices(plan: ResolvedPlan, task: StackTask, known: Map<string, Choice[]>): Choice[] {
  const { fastener, shown: _shown, ...asked } = task;
  const key = JSON.stringify([asked, fastener.headForm, fastener.acrossFlats]);
  const found = known.get(key) ?? search(plan, task);
  known.set(key, found);
  return found;
}

function search(plan: ResolvedPlan, task: StackTask): Choice[] {
  return inOrder(enumerateStacks(plan, task), task.action !== 'tighten').map((parts) => {
    const ids = stackIds(parts);
    return { parts, ids, counts: countsOf(ids) };
  });
}

function groupSteps(single: readonly StepGroup[]): StepGroup[] {
  const groups = new Map<string, StepGroup>();
  for (const group of single) {
    const actions = group.steps.map(({ action }) => action);
    const ways = [group.stacks, group.holds].map((list) => list?.map((choice) => choice.ids) ?? null);
    const key = JSON.stringify([group.role, group.slot, actions, ways]);
    const same = groups.get(key);
    // A step without a stack stands alone, so that its own closest fits can be said.
    if (same && group.stacks.length > 0) same.steps.push(...group.steps);
    else groups.set(same ? `${key}${group.steps[0]?.id}` : key, group);
  }
  return [...groups.values()];
}

function slotsOfOneRoleRunAlone(groups: readonly StepGroup[]): StepGroup[] {
  return groups.map((group) => {
    const shared = groups.some((other) => other.slot === group.slot && other.role !== group.role);
    return shared ? group : { ...group, slot: null };
  });
}

function itemsByRole(steps: readonly ResolvedStep[], groups: readonly StepGroup[]): Map<string, Set<string>> {
  const items = new Map<string, Set<string>>();
  const add = (role: string, ids: Iterable<string>): void => {
    const known = items.get(role) ?? new Set<string>();
    for (const id of ids) known.add(id);
    items.set(role, known);
  };
  for (const step of steps)
    add(
      step.role,
      gearOfStep(step).map((gear) => gear.id),
    );
  for (const { role, stacks, holds } of groups) {
    for (const choice of [...stacks, ...(holds ?? [])]) add(role, choice.ids);
  }
  return items;
}
