/**
 * What an outing needs: for each step every choice of stack and hold with the pieces it takes, and the gear.
 *
 * Readings where the rules leave room:
 * - rule 8: a stack and its hold together stay within `onHand`, like one stack;
 * - rule 9: what is possible for a role is judged over that role's steps in the same outing;
 * - rule 15: what a step moves out of the bag comes on top of its `gear`.
 */
import type { Plan, PlanStep } from '../../shared-types/plan.ts';
import { keptOn, stockOn, withSpares } from './ask.ts';
import type { Ask } from './ask.ts';
import type { BreakName } from './breaks.ts';
import { chosenSettingNm, holdJob, pieceCounts, stackIds, stacksFor, stepJob, withinStock } from './rules.ts';
import type { Stack } from './rules.ts';
import type { Stock } from './stock.ts';

export interface Choice {
  stack: Stack | null;
  hold: Stack | null;
  settingNm: number | null;
  counts: Map<string, number>;
}

export interface StepNeeds {
  step: PlanStep;
  choices: Choice[];
}

export function choicesOf(plan: Plan, stock: Stock, step: PlanStep, broken?: BreakName): Choice[] {
  const job = stepJob(plan, step, broken);
  if (job === null) return [{ stack: null, hold: null, settingNm: null, counts: new Map() }];
  const holdingJob = holdJob(plan, step, broken);
  const holds: (Stack | null)[] = holdingJob === null ? [null] : stacksFor(stock, holdingJob, broken);
  return stacksFor(stock, job, broken).flatMap((stack) => {
    const settingNm = chosenSettingNm(stack.tool, job, broken);
    return holds
      .map((hold) => ({ stack, hold, settingNm, counts: countsOf(stack, hold, broken) }))
      .filter(({ counts }) => withinStock(stock, counts, broken));
  });
}

function countsOf(stack: Stack, hold: Stack | null, broken?: BreakName): Map<string, number> {
  const holdIds = hold === null ? [] : stackIds(hold);
  if (broken !== 'holdPieces') return pieceCounts([...stackIds(stack), ...holdIds], broken);
  const counts = pieceCounts(stackIds(stack));
  for (const [id, count] of pieceCounts(holdIds)) counts.set(id, Math.max(count, counts.get(id) ?? 0));
  return counts;
}

/** Gear of one step: what it names, and what it moves out of the bag. */
export function gearOf(step: PlanStep, broken?: BreakName): Map<string, number> {
  const counts = new Map<string, number>();
  if (step.action === 'use' && broken === 'useGear') return counts;
  const moved = broken === 'moveIsGear' ? [] : (step.moves ?? []).filter((move) => move.from === 'bag');
  for (const { id, quantity } of [...(step.gear ?? []), ...moved]) counts.set(id, (counts.get(id) ?? 0) + quantity);
  return counts;
}

export function stepsOf(plan: Plan, outingId: string, broken?: BreakName): PlanStep[] {
  return plan.steps.filter(
    (step) => step.outing === outingId && !(broken === 'contingency' && step.contingency === true),
  );
}

/** Gear of an outing: the quantities of its steps add up. */
export function outingGear(plan: Plan, outingId: string, broken?: BreakName): Map<string, number> {
  const total = new Map<string, number>();
  for (const step of stepsOf(plan, outingId, broken)) {
    for (const [id, quantity] of gearOf(step, broken)) {
      const before = total.get(id) ?? 0;
      total.set(id, broken === 'gearAddsUp' ? Math.max(before, quantity) : before + quantity);
    }
  }
  return total;
}

/** Gear packed on an outing: what its steps need and its spares, or what is kept where that is more. */
export function gearPacked(
  plan: Plan,
  stock: Stock,
  ask: Ask,
  outingId: string,
  broken?: BreakName,
): Map<string, number> {
  const total = withSpares(outingGear(plan, outingId, broken), ask.spares, outingId, broken);
  for (const [id, quantity] of keptOn(ask, outingId, plan.outings[0]?.id ?? '', broken)) {
    if (!stock.gear.some((item) => item.id === id)) continue;
    const others = total.get(id) ?? 0;
    total.set(id, broken === 'keepOnTop' ? others + quantity : Math.max(others, quantity));
  }
  return total;
}

/** Whether the stock has the gear: of each outing, and of consumed gear over all outings. */
export function gearWithinStock(plan: Plan, stock: Stock, ask: Ask, broken?: BreakName): boolean {
  const overAll = new Map<string, number>();
  for (const { id: outing } of plan.outings) {
    const own = stockOn(stock, ask, outing, broken);
    if (!withinStock(own, gearPacked(plan, stock, ask, outing, broken), broken)) return false;
    const need = outingGear(plan, outing, broken);
    const spent = broken === 'sparesConsumed' ? need : withSpares(need, ask.spares, outing, broken);
    for (const [id, quantity] of spent) overAll.set(id, (overAll.get(id) ?? 0) + quantity);
  }
  if (broken === 'consumed') return true;
  const consumed = new Set(stock.gear.filter((item) => item.consumed).map((item) => item.id));
  return withinStock(stock, new Map([...overAll].filter(([id]) => consumed.has(id))), broken);
}

/** Work at one time: a step alone, or all steps of a slot, by role. */
export interface Moment {
  roles: { role: string; steps: StepNeeds[] }[];
}

export function momentsOf(steps: readonly StepNeeds[]): Moment[] {
  const moments: Moment[] = [];
  const slots = new Map<string, Moment>();
  for (const needs of steps) {
    const { slot, role } = needs.step;
    const moment = (slot === undefined ? undefined : slots.get(slot)) ?? { roles: [] };
    if (!moments.includes(moment)) moments.push(moment);
    if (slot !== undefined) slots.set(slot, moment);
    const mates = moment.roles.find((one) => one.role === role);
    if (mates === undefined) moment.roles.push({ role, steps: [needs] });
    else mates.steps.push(needs);
  }
  return moments;
}

/** Ids that appear in some stack or hold of a step of each role of the outing: what its role bags may hold (rule 9). */
export function possibleByRole(steps: readonly StepNeeds[]): Map<string, Set<string>> {
  const byRole = new Map<string, Set<string>>();
  for (const { step, choices } of steps) {
    const ids = byRole.get(step.role) ?? new Set();
    for (const choice of choices) for (const id of choice.counts.keys()) ids.add(id);
    byRole.set(step.role, ids);
  }
  return byRole;
}
