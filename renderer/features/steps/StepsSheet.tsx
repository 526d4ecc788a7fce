import { memo, useEffect, useRef } from 'react';
import { useMediaQuery } from '@mantine/hooks';
import type { BagResult } from '../../../shared-types/bag.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { goTo } from '../session/usePlace.ts';
import { useJudgements } from './judging.ts';
import type { Counts } from './judging.ts';
import { NoSteps } from './NoSteps.tsx';
import { StepDetail } from './StepDetail.tsx';
import { StepTable } from './StepTable.tsx';
import { countOf } from './words.ts';
import './steps.css';

export interface StepsSheetProps {
  plan: ResolvedPlan;
  /** Id of the step in hand; the first one where the address names none or one that is not there. */
  stepId: string | undefined;
  result: BagResult | null;
  units: UnitsShown;
}

function countsText({ reached, notReached, byHand }: Counts): string {
  const said: [number, string][] = [
    [reached, 'reached'],
    [notReached, 'not reached'],
    [byHand, 'by hand'],
  ];
  return said.flatMap(([count, word]) => (count > 0 ? [`${count} ${word}`] : [])).join(' · ');
}

/** Drawn again only when its own matter changes: what opens over it costs nothing here. */
export const StepsSheet = memo(function StepsSheet({ plan, stepId, result, units }: StepsSheetProps) {
  const { judgements, counts, done } = useJudgements(plan);
  const heading = useRef<HTMLHeadingElement>(null);
  const stacked = useMediaQuery('(max-width: 1100px)', false, { getInitialValueInEffect: false });
  const step = plan.steps.find(({ id }) => id === stepId) ?? plan.steps[0];
  const choose = (id: string): void => goTo({ at: 'steps', step: id }, 'replace');
  const walk = (by: 1 | -1): void => {
    const next = step === undefined ? undefined : plan.steps[plan.steps.indexOf(step) + by];
    if (next !== undefined) choose(next.id);
  };
  const detail = useRef<HTMLDivElement>(null);
  useEffect(() => {
    detail.current?.scrollTo(0, 0);
  }, [step?.id]);

  const list = (
    <section key="list" className="bw-pane-list" aria-labelledby="steps-heading">
      <div className="bw-pane-bar">
        <h2 id="steps-heading">Steps</h2>
        <span className="bw-second bw-small">
          {done ? countsText(counts) : `judging: ${judgements.size} of ${countOf(plan.steps.length, 'step')}`}
        </span>
      </div>
      <StepTable
        plan={plan}
        judgements={judgements}
        units={units}
        selected={step?.id ?? null}
        onSelect={choose}
        onOpen={() => heading.current?.focus()}
      />
    </section>
  );
  const inHand = (
    <div key="detail" ref={detail} className="bw-pane-detail" role="region" aria-label="Step in hand" tabIndex={0}>
      {step === undefined ? (
        <NoSteps />
      ) : (
        <StepDetail plan={plan} step={step} result={result} units={units} headingRef={heading} onStep={walk} />
      )}
    </div>
  );
  // Where the panes stack, the drawing comes first, for the eye and for the keyboard alike.
  return <div className="bw-split">{stacked ? [inHand, list] : [list, inHand]}</div>;
});
