import type { TaskStep } from '../../../shared-types/records/task.ts';
import type { PlanStep } from '../../../shared-types/plan.ts';
import type { ResolvedStep } from '../../engine/plan/resolved.ts';
import type { StepJudgement } from '../../engine/stack/judged.ts';
import { leadMm, turnsToRun } from '../../engine/thread/index.ts';
import { showBand, showLimit, showNumber } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import type { Need } from './stepNeeds.ts';

/** One line of the steps' list. */
export interface StepRow {
  number: number;
  name: string;
  /** Fastener and how many of it. */
  second: string;
  /** 1 and more: stands under the step it is for. */
  depth: number;
  /** "if stuck"; null for a step of the task's own order. */
  onlyIf: string | null;
  role: string;
  callout: string;
  /** To run one of its fasteners on or off. */
  turns: string;
  minutes: string;
  state: StepState;
}

export type StepState =
  | { kind: 'judged'; state: StepJudgement['state']; otherWay: boolean }
  | { kind: 'judging' }
  | { kind: 'not-complete'; needs: readonly Need[] };

export interface RowGroup {
  id: string;
  title: string;
  codes: readonly string[];
}

/** What the torque column says: the callout as written first, or what a loosening step must bear. */
function calloutText(step: Pick<PlanStep, 'callout' | 'demand'> | undefined, mode: UnitsShown): string {
  const once = mode === 'both' ? 'as-written' : mode;
  if (step?.callout !== undefined) return showBand(step.callout.min, step.callout.max, once);
  if (step?.demand !== undefined) return `up to ${showLimit(step.demand, 'minimum', once)}`;
  return '–';
}

/** Of a record that nobody has read yet: its texts may not be quantities at all. */
export function keptCalloutText(step: Pick<TaskStep, 'callout' | 'demand'>, mode: UnitsShown): string {
  try {
    return calloutText({ callout: step.callout, demand: step.demand } as Pick<PlanStep, 'callout' | 'demand'>, mode);
  } catch {
    return step.callout === undefined ? (step.demand ?? '–') : `${step.callout.min} – ${step.callout.max}`;
  }
}

export const minutesText = (minutes: number | undefined): string =>
  minutes !== undefined && minutes > 0 ? showNumber(minutes) : '';

/** Turns to run one fastener to its seat or off it; null where the plan does not say how far it runs. */
export function turnsOf(step: ResolvedStep | null): number | null {
  if (step === null || step.fastener === null || step.fastener.threadRunMm === null || step.action === 'use')
    return null;
  return turnsToRun({ lengthMm: step.fastener.threadRunMm, leadMm: leadMm(step.fastener.thread) });
}

export const turnsText = (turns: number | null): string => (turns === null ? '' : showNumber(turns, 3));

export const fastenerWords = (name: string | undefined, count: number | undefined): string =>
  name === undefined ? '' : `${name}${count === undefined ? '' : `\u00a0×\u00a0${count}`}`;
