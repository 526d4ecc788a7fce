import { useCallback, useSyncExternalStore } from 'react';
import type { ResolvedPlan, ResolvedStep } from '../../engine/plan/resolved.ts';
import type { StepJudgement } from '../../engine/stack/judged.ts';
import { judgeStep } from '../../engine/stack/judgeStep.ts';
import { carriedOver } from './carryOver.ts';

export type Judgements = ReadonlyMap<string, StepJudgement>;

/** What is held of one plan. A new object each time it is told, so that a screen sees that it has grown. */
export interface Judging {
  judgements: Judgements;
  counts: Counts;
  done: boolean;
}

export interface Counts {
  reached: number;
  notReached: number;
  byHand: number;
  /** Stacks that reach, over the steps judged so far. */
  stacks: number;
}

interface Run {
  held: Map<string, StepJudgement>;
  told: Judging;
  listeners: Set<() => void>;
  started: boolean;
}

const runs = new WeakMap<ResolvedPlan, Run>();
/** The plan judged last: of its next state only what has changed is judged again. */
let latest: { plan: ResolvedPlan; held: Map<string, StepJudgement> } | null = null;
const turnMs = 10;
const tellEveryMs = 200;
const none: Counts = { reached: 0, notReached: 0, byHand: 0, stacks: 0 };
const nothing: Judging = { judgements: new Map(), counts: none, done: true };

function runOf(plan: ResolvedPlan): Run {
  const known = runs.get(plan);
  if (known !== undefined) return known;
  const held = latest === null ? new Map<string, StepJudgement>() : carriedOver(latest, plan);
  const run: Run = {
    held,
    told: { judgements: held, counts: countsOf(held), done: held.size === plan.steps.length },
    listeners: new Set(),
    started: false,
  };
  runs.set(plan, run);
  latest = { plan, held };
  return run;
}

function countsOf(held: Judgements): Counts {
  const counts = { ...none };
  for (const { state, stackCount } of held.values()) {
    counts[state === 'reached' ? 'reached' : state === 'not-reached' ? 'notReached' : 'byHand'] += 1;
    counts.stacks += stackCount;
  }
  return counts;
}

/** The states in words; what is not complete yet is no part of the plan, and is counted by who knows of it. */
export function countsText({ reached, notReached, byHand }: Counts, notComplete: number): string {
  const said: [number, string][] = [
    [reached, 'reached'],
    [notReached, 'not reached'],
    [byHand, 'by hand'],
    [notComplete, 'not complete'],
  ];
  return said.flatMap(([count, word]) => (count > 0 ? [`${count} ${word}`] : [])).join(' · ');
}

/** The judgement of one step, computed at once where it is not held yet. */
export function judgementOf(plan: ResolvedPlan, step: ResolvedStep): StepJudgement {
  const { held } = runOf(plan);
  const known = held.get(step.id);
  if (known !== undefined) return known;
  const judged = judgeStep(plan, step);
  held.set(step.id, judged);
  return judged;
}

/** Judges all steps a few milliseconds' worth at a time, so that a long plan never holds the window up. */
function judgeAll(plan: ResolvedPlan, run: Run): void {
  let next = 0;
  let toldAt = 0;
  const turn = (): void => {
    const began = performance.now();
    for (
      let step = plan.steps[next];
      step !== undefined && performance.now() - began < turnMs;
      step = plan.steps[next]
    ) {
      judgementOf(plan, step);
      next += 1;
    }
    const done = next >= plan.steps.length;
    if (done || began - toldAt > tellEveryMs) {
      toldAt = began;
      run.told = { judgements: run.held, counts: countsOf(run.held), done };
      for (const listener of run.listeners) listener();
    }
    // Nobody looks at a plan that has been closed: its judging waits until somebody does.
    if (!done && run.listeners.size > 0) setTimeout(turn);
    else run.started = false;
  };
  run.started = true;
  setTimeout(turn);
}

/** The judgements of a plan as they come; judging goes on while anyone looks. */
export function useJudgements(plan: ResolvedPlan | null): Judging {
  const subscribe = useCallback(
    (listener: () => void) => {
      if (plan === null) return () => undefined;
      const run = runOf(plan);
      run.listeners.add(listener);
      if (!run.started && !run.told.done) judgeAll(plan, run);
      return () => run.listeners.delete(listener);
    },
    [plan],
  );
  return useSyncExternalStore(subscribe, () => (plan === null ? nothing : runOf(plan).told));
}
