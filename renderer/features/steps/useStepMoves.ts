import { useMemo, useState } from 'react';
import type { Act } from '../../store/store.ts';
import { landingAtNumber, moveStepsBy, moveStepsTo } from './moveSteps.ts';
import type { Landing } from './moveSteps.ts';
import type { TaskRows } from './stepActs.ts';
import { stepName } from './stepTexts.ts';
import type { ListedStep, TaskStepsView } from './useTaskSteps.ts';
import { countOf } from './words.ts';

/** An act with what is said of it once it is kept; or why there is none. */
export type MoveMade = { act: Act; said: string } | { why: string };

export interface StepMoves {
  /** Codes of the steps chosen together; those of them that are gone are none. */
  chosen: ReadonlySet<string>;
  choose: (codes: ReadonlySet<string>) => void;
  /** What a deed for several is done to: those chosen, else the one in hand. */
  meant: readonly ListedStep[];
  by: (by: -1 | 1) => MoveMade;
  /** Where a row was dropped: by its code, and with those chosen where it is one of them. */
  dropped: (code: string, landing: Landing) => MoveMade;
  toNumber: (number: number) => MoveMade;
}

/** Moves of the step in hand, or of all that are chosen, each as one act. */
export function useStepMoves(view: TaskStepsView, rows: TaskRows, inHand: ListedStep | null): StepMoves {
  const [kept, choose] = useState<ReadonlySet<string>>(new Set());
  const { byCode, listed } = view;
  const chosen = useMemo(() => new Set([...kept].filter((code) => byCode.has(code))), [kept, byCode]);
  const meant = useMemo(
    () => (chosen.size > 0 ? listed.filter(({ step }) => chosen.has(step.code)) : inHand === null ? [] : [inHand]),
    [chosen, listed, inHand],
  );
  const idOf = (code: string): string => byCode.get(code)?.step.id ?? '';
  const of = (steps: readonly ListedStep[], where: string) => ({
    ids: new Set(steps.map(({ step }) => step.id)),
    number: steps.length === 1 ? (steps[0]?.number ?? null) : null,
    where,
  });
  const made = (steps: readonly ListedStep[], where: string, act: Act | null, why: string): MoveMade => {
    const [only] = steps.length === 1 ? steps : [];
    const what = only === undefined ? countOf(steps.length, 'step') : stepName(only.step);
    return act === null ? { why } : { act, said: `${what} moved ${where}.` };
  };
  const to = (steps: readonly ListedStep[], landing: Landing, where: string): MoveMade =>
    made(
      steps,
      where,
      moveStepsTo(rows, of(steps, where), landing),
      'Nothing is moved: it stands there already, or what is done if a step fails would leave that step.',
    );
  return {
    ...{ chosen, choose, meant },
    by(by) {
      const where = by === 1 ? 'down' : 'up';
      const why = by === 1 ? 'It is the last already.' : 'It is the first already.';
      return made(meant, where, moveStepsBy(rows, of(meant, where), by), why);
    },
    dropped(code, landing) {
      const one = byCode.get(code);
      const steps = chosen.has(code) ? meant : one === undefined ? [] : [one];
      if (landing.side === 'head') return to(steps, landing, `to the head of outing ${landing.outing}`);
      const target = byCode.get(landing.step);
      return to(
        steps,
        { side: landing.side, step: idOf(landing.step) },
        `${landing.side} step ${target?.number ?? ''}`,
      );
    },
    toNumber(number) {
      const landing = landingAtNumber(listed, of(meant, '').ids, number);
      if (landing === null) return { why: `No step has the number ${number}.` };
      return to(meant, landing, `to number ${number}`);
    },
  };
}
