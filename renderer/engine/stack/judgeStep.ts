import type { ClosestFit } from '../../../shared-types/bag.ts';
import type { ResolvedPlan, ResolvedStep } from '../plan/resolved.ts';
import { RefusedError } from '../errors.ts';
import { chooseSetting } from '../torque/chooseSetting.ts';
import { checkStack } from './checkStack.ts';
import { closestFits } from './closestFits.ts';
import type { JudgedStack, StepJudgement } from './judged.ts';
import { lightestStacks } from './lightest.ts';
import { stackMassKg } from './order.ts';
import { pairInStock, pairMisses } from './pairs.ts';
import type { StackParts, StackTask } from './stackTask.ts';
import { holdTask, stackIds, stackLengthMm, stackParts, stackTask } from './stackTask.ts';
import { stepTurning } from './stepTurning.ts';
import { countWays, findWays, noWay } from './ways.ts';

const othersShown = 5;

/**
 * What can be said of a step from the catalog alone: its lightest stack and the next ones, or its closest fits. Where the
 * step holds, stack and hold are a pair for which the stock has the pieces.
 */
export function judgeStep(plan: ResolvedPlan, step: ResolvedStep): StepJudgement {
  const task = stackTask(plan, step);
  if (!task) return { ...nothing(step), state: 'by-hand' };
  const ways = findWays(plan, task);
  const stackCount = countWays(ways);
  const stacks = lightestStacks(ways, othersShown + 1);
  const holding = holdTask(plan, step);
  const holds = holding && findWays(plan, holding);
  const [first] = stacks;
  const unheld = holds !== null && noWay(holds);
  if (!first || unheld) {
    const main = first ? [] : closestFits(plan, task);
    const held = unheld ? holdMisses(plan, holding, first ? stackIds(first) : null) : [];
    return { ...nothing(step), stackCount, closest: [...main, ...held] };
  }
  const pair = holds ? pairInStock(ways, holds) : { stack: first, hold: null };
  if (!pair) return { ...nothing(step), stackCount, closest: holds ? pairMisses(ways, holds) : [] };
  return {
    step: step.id,
    state: 'reached',
    best: judge(task, pair.stack),
    hold: holding && pair.hold ? judge(holding, pair.hold) : null,
    others: stacks
      .filter((stack) => stackIds(stack).join('\n') !== stackIds(pair.stack).join('\n'))
      .slice(0, othersShown)
      .map((parts) => judge(task, parts)),
    stackCount,
    closest: [],
    ...stepTurning(step, pair.stack),
  };
}

/**
 * One named stack held against a step's rules; it may fail any of them.
 *
 * @throws RefusedError where the step takes no stack or the plan has no such part
 */
export function judgeStack(plan: ResolvedPlan, step: ResolvedStep, stack: readonly string[]): JudgedStack {
  const task = stackTask(plan, step);
  const parts = stackParts(plan, stack);
  if (!task || !parts) {
    throw new RefusedError({
      code: 'unknown-id',
      message: `${stack.join(' + ')} is no stack of this catalog for step "${step.id}"`,
    });
  }
  return judge(task, parts);
}

/** What hinders the hold: check `hold`, with the nearest holding stack's own shortfall; else with the step's `main` one. */
export function holdMisses(plan: ResolvedPlan, task: StackTask | null, main: string[] | null): ClosestFit[] {
  if (!task) return [];
  const fits = closestFits(plan, task);
  if (fits.length === 0) {
    const have = '0 stacks of a driver that hold against it';
    return main ? [{ stack: main, fails: [{ check: 'hold', have, need: '1 stack' }] }] : [];
  }
  return fits.map(({ stack, fails }) => ({
    stack,
    fails: fails.map(({ check, have, need }) => ({ check: 'hold' as const, have: `${have} (${check})`, need })),
  }));
}

function nothing(step: ResolvedStep): StepJudgement {
  return {
    step: step.id,
    state: 'not-reached',
    best: null,
    hold: null,
    others: [],
    stackCount: 0,
    closest: [],
    turns: null,
    strokes: null,
  };
}

function judge(task: StackTask, parts: StackParts): JudgedStack {
  const { torque } = parts.tool;
  const { aim, rangeShareMin } = task;
  const chosen = aim && torque ? chooseSetting({ torque, aim, rangeShareMin }) : null;
  return {
    stack: stackIds(parts),
    lengthMm: stackLengthMm(parts),
    massKg: stackMassKg(parts),
    checks: checkStack(task, parts).map(({ check, passes, have, need, margin }) => ({
      check,
      passes,
      have,
      need,
      margin,
    })),
    setting: chosen?.setting ?? null,
    applied: chosen?.applied ?? null,
  };
}
