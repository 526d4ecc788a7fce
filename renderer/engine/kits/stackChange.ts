import type { ClosestFit, Setting } from '../../../shared-types/bag.ts';
import type { ReadableTask } from '../records/readableTask.ts';
import type { ResolvedPlan, ResolvedStep } from '../plan/resolved.ts';
import type { StepJudgement } from '../stack/judged.ts';
import { judgeStep } from '../stack/judgeStep.ts';

/** How one step stands with one kit. */
export interface StepWithKit {
  state: StepJudgement['state'] | 'not-read';
  /** Names of the parts of its lightest stack, and of what holds against it. */
  stack: string[];
  hold: string[] | null;
  setting: Setting | null;
  /** By how much the stack reaches further than it must, as its check says; null where nothing is to be reached. */
  reach: string | null;
  /** How many stacks there are. */
  stackCount: number;
  closest: ClosestFit[];
  /** Why it cannot be read with this kit. */
  reasons: string[];
}

export type StackEffect = 'loses' | 'gains' | 'other-stack' | 'other-setting' | 'other-reach' | 'same';

export interface StackChange {
  step: string;
  effect: StackEffect;
  mine: StepWithKit;
  theirs: StepWithKit;
}

/**
 * One step of a task with one kit and with another: whether it loses its stack, gains one, or gets another stack, setting or spare reach. Of
 * several stacks the lightest counts, as wherever a step is judged.
 *
 * @param code - of the step
 * @param mine - the task read with the first kit
 * @param theirs - the same task read with the second
 * @returns both, and what changes from the first to the second
 */
export function stackChange(code: string, mine: ReadableTask, theirs: ReadableTask): StackChange {
  const [here, there] = [withKit(code, mine), withKit(code, theirs)];
  return { step: code, effect: effectOf(here, there), mine: here, theirs: there };
}

const able = ({ state }: StepWithKit): boolean => state === 'reached' || state === 'by-hand';

function effectOf(mine: StepWithKit, theirs: StepWithKit): StackEffect {
  if (able(mine) !== able(theirs)) return able(mine) ? 'loses' : 'gains';
  if (!able(mine)) return 'same';
  const parts = ({ stack, hold }: StepWithKit): string => JSON.stringify([stack, hold]);
  const set = ({ setting }: StepWithKit): string => JSON.stringify(setting);
  if (parts(mine) !== parts(theirs)) return 'other-stack';
  if (set(mine) !== set(theirs)) return 'other-setting';
  // The same codes may be longer or shorter pieces in the other kit.
  return mine.reach === theirs.reach ? 'same' : 'other-reach';
}

function withKit(code: string, { resolved, missing }: ReadableTask): StepWithKit {
  const step = resolved.steps.find(({ id }) => id === code);
  const none = { stack: [], hold: null, setting: null, reach: null, stackCount: 0, closest: [] };
  if (step === undefined) {
    const own = missing.filter((one) => one.table === 'steps' && one.code === code).map(({ reason }) => reason);
    return { ...none, state: 'not-read', reasons: own.length === 0 ? ['what it stands on cannot be read'] : own };
  }
  return { ...judged(resolved, step), reasons: [] };
}

function judged(plan: ResolvedPlan, step: ResolvedStep): Omit<StepWithKit, 'reasons'> {
  const { state, best, hold, stackCount, closest } = judgeStep(plan, step);
  return {
    state,
    stack: best?.stack ?? [],
    hold: hold?.stack ?? null,
    setting: best?.setting ?? null,
    reach: best?.checks.find(({ check }) => check === 'reach')?.margin ?? null,
    stackCount,
    closest,
  };
}
