import { memo, useCallback, useMemo, useRef } from 'react';
import type { BagResult } from '../../../shared-types/bag.ts';
import { outingMinutes } from '../../engine/outing/planProblems.ts';
import type { ResolvedOuting, ResolvedPlan } from '../../engine/plan/resolved.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { goTo } from '../session/usePlace.ts';
import { countsText, useJudgements } from './judging.ts';
import { NoSteps } from './NoSteps.tsx';
import { StepDetail } from './StepDetail.tsx';
import { calloutText, fastenerWords, minutesText } from './stepRow.ts';
import type { RowGroup, StepRow } from './stepRow.ts';
import { StepsPanes } from './StepsPanes.tsx';
import { StepTable } from './StepTable.tsx';
import { timeText } from './timeText.ts';
import { countOf } from './words.ts';

export interface PlanStepsProps {
  plan: ResolvedPlan;
  /** Id of the step in hand; the first one where the address names none or one that is not there. */
  stepId: string | undefined;
  result: BagResult | null;
  units: UnitsShown;
}

function groupTitle(plan: ResolvedPlan, { id, name, minutesMax }: ResolvedOuting): string {
  const own = plan.steps.filter((step) => step.outing === id);
  const workMin = own.reduce((sum, step) => sum + (step.contingency ? 0 : step.minutes), 0);
  const outMin = outingMinutes(plan, { id, name, minutesMax, roles: [], bags: [] });
  return [
    name === id ? `Outing ${id}` : name,
    countOf(own.length, 'step'),
    ...timeText({ workMin, outMin, minutesMax }),
  ].join(' · ');
}

/** The steps of a plan that came as a file, to look at. Drawn again only when its own matter changes. */
export const PlanSteps = memo(function PlanSteps({ plan, stepId, result, units }: PlanStepsProps) {
  const { judgements, counts, done } = useJudgements(plan);
  const heading = useRef<HTMLHeadingElement>(null);
  const indices = useMemo(() => new Map(plan.steps.map(({ id }, index) => [id, index])), [plan]);
  const groups = useMemo(
    () =>
      plan.outings.map((outing): RowGroup => ({
        id: outing.id,
        title: groupTitle(plan, outing),
        codes: plan.steps.filter((step) => step.outing === outing.id).map(({ id }) => id),
      })),
    [plan],
  );
  const rowOf = useCallback(
    (id: string): StepRow | null => {
      const index = indices.get(id) ?? -1;
      const step = plan.steps[index];
      if (step === undefined) return null;
      const judged = judgements.get(id);
      const written = plan.source.steps[index];
      return {
        number: index + 1,
        name: step.name,
        second: fastenerWords(step.fastener?.name, written?.count),
        depth: 0,
        onlyIf: step.contingency ? 'if it fails' : null,
        role: step.role,
        callout: calloutText(written, units),
        minutes: minutesText(step.minutes),
        state: judged === undefined ? { kind: 'judging' } : { kind: 'judged', state: judged.state },
      };
    },
    [plan, indices, judgements, units],
  );
  const minutesWide = useMemo(
    () => Math.max(0, ...plan.steps.map(({ minutes }) => minutesText(minutes).length)),
    [plan],
  );
  const step = plan.steps[indices.get(stepId ?? '') ?? 0];
  const choose = (id: string): void => goTo({ at: 'steps', step: id }, 'replace');
  const number = step === undefined ? 0 : plan.steps.indexOf(step) + 1;
  const walk = (by: 1 | -1): void => {
    const next = plan.steps[number - 1 + by];
    if (next !== undefined) choose(next.id);
  };
  return (
    <StepsPanes
      said={done ? countsText(counts, 0) : `judging: ${judgements.size} of ${countOf(plan.steps.length, 'step')}`}
      inHand={step?.id ?? null}
      table={
        <StepTable
          groups={groups}
          rowOf={rowOf}
          numberWide={showNumber(plan.steps.length).length}
          minutesWide={minutesWide}
          selected={step?.id ?? null}
          onSelect={choose}
          onOpen={() => heading.current?.focus()}
          empty="The steps appear here once the plan’s file has some."
        />
      }
    >
      {step === undefined ? (
        <NoSteps />
      ) : (
        <StepDetail
          plan={plan}
          step={step}
          number={number}
          of={plan.steps.length}
          result={result}
          units={units}
          headingRef={heading}
          onStep={walk}
        />
      )}
    </StepsPanes>
  );
});
