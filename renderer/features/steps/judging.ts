import { useEffect, useState } from 'react';
import type { ResolvedPlan, ResolvedStep } from '../../engine/plan/resolved.ts';
import type { StepJudgement } from '../../engine/stack/judged.ts';
import { judgeStep } from '../../engine/stack/judgeStep.ts';

export type Judgements = ReadonlyMap<string, StepJudgement>;

const kept = new WeakMap<ResolvedPlan, Map<string, StepJudgement>>();
const turnMs = 12;

function heldFor(plan: ResolvedPlan): Map<string, StepJudgement> {
  const held = kept.get(plan) ?? new Map<string, StepJudgement>();
  kept.set(plan, held);
  return held;
}

/** The judgement of one step, computed at once where it is not held yet. */
export function judgementOf(plan: ResolvedPlan, step: ResolvedStep): StepJudgement {
  const held = heldFor(plan);
  const known = held.get(step.id);
  if (known !== undefined) return known;
  const judged = judgeStep(plan, step);
  held.set(step.id, judged);
  return judged;
}

/** All judgements of a plan, a few milliseconds' worth at a time, so that a long plan never holds the window up. */
export function useJudgements(plan: ResolvedPlan | null): { judgements: Judgements; done: boolean } {
  const [, setCount] = useState(0);
  const held = plan === null ? new Map<string, StepJudgement>() : heldFor(plan);
  useEffect(() => {
    if (plan === null) return;
    let next = 0;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const turn = (): void => {
      const started = performance.now();
      while (next < plan.steps.length && performance.now() - started < turnMs) {
        const step = plan.steps[next];
        if (step !== undefined) judgementOf(plan, step);
        next += 1;
      }
      setCount(next);
      if (next < plan.steps.length) timer = setTimeout(turn);
    };
    turn();
    return () => clearTimeout(timer);
  }, [plan]);
  return { judgements: held, done: plan === null || held.size >= plan.steps.length };
}
