import { useCallback, useMemo } from 'react';
import type { Item } from '../../../shared-types/records/item.ts';
import type { TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';
import type { ResolvedPlan, ResolvedStep } from '../../engine/plan/resolved.ts';
import type { Missing } from '../../engine/records/readableTask.ts';
import { noneMeasuresIt } from '../../engine/stack/otherWay.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { scheduleOf } from '../outings/schedule.ts';
import type { SiteRows } from '../task/useTaskRows.ts';
import { filledFrom } from './fromInterface.ts';
import type { Judgements } from './judging.ts';
import { neighbourOf, stepGroups } from './stepLines.ts';
import type { StepGroup } from './stepLines.ts';
import { stepNeeds } from './stepNeeds.ts';
import type { Need } from './stepNeeds.ts';
import { fastenerWords, keptCalloutText, minutesText, turnsOf, turnsText } from './stepRow.ts';
import type { RowGroup, StepRow, StepState } from './stepRow.ts';
import { contingencyWord, stepName } from './stepTexts.ts';
import { timeText } from './timeText.ts';
import { countOf } from './words.ts';

export interface TaskStepsInput {
  steps: readonly TaskStep[];
  outings: readonly TaskOuting[];
  stock: readonly Item[];
  sites: SiteRows;
  plan: ResolvedPlan;
  missing: readonly Missing[];
  judgements: Judgements;
  units: UnitsShown;
}

export interface ListedStep {
  step: TaskStep;
  number: number;
  depth: number;
}

export interface TaskStepsView {
  groups: readonly RowGroup[];
  /** As the list shows them, from top to bottom. */
  listed: readonly ListedStep[];
  byCode: ReadonlyMap<string, ListedStep>;
  rowOf: (code: string) => StepRow | null;
  inPlan: (code: string) => ResolvedStep | null;
  needsOf: (step: TaskStep) => readonly Need[];
  /** Whether there is a step to pass on that side. */
  canMove: (step: TaskStep, by: -1 | 1) => boolean;
  notComplete: number;
  minutesWide: number;
}

/** Turns of every fastener of the outing's own course; contingency steps may never be done. */
function turnsOfOuting(steps: readonly TaskStep[], planned: ReadonlyMap<string, ResolvedStep>): string[] {
  const course = steps.filter(({ contingency }) => contingency !== true);
  const turns = course.reduce((sum, { code }) => {
    const step = planned.get(code) ?? null;
    return sum + (turnsOf(step) ?? 0) * (step?.count ?? 1);
  }, 0);
  return turns === 0 ? [] : [`${showNumber(turns, 3)}\u00a0turns`];
}

function groupTitle({ outing, record, lines }: StepGroup, planned: ReadonlyMap<string, ResolvedStep>): string {
  const steps = lines.map(({ step }) => step);
  const name =
    record === null
      ? `No outing has the code “${outing}”`
      : record.name === undefined
        ? `Outing ${record.code}`
        : record.name;
  const { workMin, endMin } = scheduleOf(steps);
  const minutesMax = record?.minutesMax ?? null;
  const sums = [...timeText({ workMin, outMin: endMin, minutesMax }), ...turnsOfOuting(steps, planned)];
  return [name, countOf(steps.length, 'step'), ...sums].join(' · ');
}

/** The steps of a kept task as their sheet lists them; what is drawn row by row is asked for row by row. */
export function useTaskSteps(input: TaskStepsInput): TaskStepsView {
  const { steps, outings, stock, sites, plan, missing, judgements, units } = input;
  const kept = useMemo(() => {
    const lines = stepGroups(steps, outings);
    const numbers = new Map(steps.map(({ id }, index) => [id, index + 1]));
    const listed = lines.flatMap((group) =>
      group.lines.map(({ step, depth }): ListedStep => ({ step, depth, number: numbers.get(step.id) ?? 0 })),
    );
    const minutesWide = steps.reduce((most, { minutes }) => Math.max(most, minutesText(minutes).length), 0);
    const canMove = (step: TaskStep, by: -1 | 1): boolean => {
      const own = lines.find(({ outing }) => outing === step.outing);
      return own !== undefined && neighbourOf(own.lines, step.id, by) !== null;
    };
    return { lines, listed, canMove, byCode: new Map(listed.map((one) => [one.step.code, one])), minutesWide };
  }, [steps, outings]);
  const planned = useMemo(() => new Map(plan.steps.map((step) => [step.id, step])), [plan]);
  const groups = useMemo(
    () =>
      kept.lines.map((group): RowGroup => ({
        id: group.outing,
        title: groupTitle(group, planned),
        codes: group.lines.map(({ step }) => step.code),
      })),
    [kept, planned],
  );
  const missingOf = useMemo(() => {
    const byStep = new Map<string, Missing[]>();
    for (const one of missing) byStep.set(one.id, [...(byStep.get(one.id) ?? []), one]);
    return byStep;
  }, [missing]);
  const names = useMemo(
    () => new Map(stock.flatMap((item) => (item.kind === 'fastener' ? [[item.code, item.name ?? item.thread]] : []))),
    [stock],
  );
  const inPlan = useCallback((code: string) => planned.get(code) ?? null, [planned]);
  const needsOf = useCallback(
    (step: TaskStep) => stepNeeds(step, sites.interfaces.get(step.interface ?? ''), missingOf.get(step.id) ?? []),
    [sites, missingOf],
  );
  const { byCode } = kept;
  const rowOf = useCallback(
    (code: string): StepRow | null => {
      const one = byCode.get(code);
      if (one === undefined) return null;
      const { step, number, depth } = one;
      const filled = filledFrom(step, sites.interfaces.get(step.interface ?? ''));
      const stateOf = (): StepState => {
        const judged = judgements.get(code);
        const of = planned.get(code);
        if (of !== undefined && judged !== undefined)
          return { kind: 'judged', state: judged.state, otherWay: noneMeasuresIt(plan, of) };
        const needs = planned.has(code) ? [] : needsOf(step);
        return needs.length === 0 ? { kind: 'judging' } : { kind: 'not-complete', needs };
      };
      return {
        number,
        name: stepName(step),
        second: fastenerWords(
          filled.fastener === undefined ? undefined : (names.get(filled.fastener) ?? filled.fastener),
          filled.count,
        ),
        depth,
        onlyIf: step.contingency === true ? contingencyWord(step) : null,
        role: step.role,
        callout: keptCalloutText(step, units),
        turns: turnsText(turnsOf(planned.get(code) ?? null)),
        minutes: minutesText(step.minutes),
        state: stateOf(),
      };
    },
    [byCode, sites, names, plan, planned, judgements, needsOf, units],
  );
  const notComplete = useMemo(
    () => steps.filter((step) => !planned.has(step.code) && needsOf(step).length > 0).length,
    [steps, planned, needsOf],
  );
  return { ...kept, groups, rowOf, inPlan, needsOf, notComplete };
}
