import { useState } from 'react';
import type { ReactNode, Ref } from 'react';
import { Button } from '@mantine/core';
import type { BagResult } from '../../../shared-types/bag.ts';
import { gravestFirst } from '../../engine/cards/index.ts';
import type { ResolvedPlan, ResolvedStep } from '../../engine/plan/resolved.ts';
import type { JudgedStack } from '../../engine/stack/judged.ts';
import { judgeStack } from '../../engine/stack/judgeStep.ts';
import { isRightWay } from '../../engine/stack/otherWay.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { BandFigure } from '../../components/BandFigure/BandFigure.tsx';
import { StackDrawing } from '../../components/StackDrawing/StackDrawing.tsx';
import { CheckList } from './CheckList.tsx';
import { ClosestFits, sameStack, stackText } from './ClosestFits.tsx';
import { GearAndMoves } from './GearAndMoves.tsx';
import { heldWith } from './heldWith.ts';
import { judgementOf } from './judging.ts';
import { OtherStacks } from './OtherStacks.tsx';
import { SaidWatchOuts } from '../watchOuts/SaidWatchOuts.tsx';
import type { useStepWatchOuts } from '../watchOuts/useStepWatchOuts.ts';
import { SaidLine, WayLine } from './SaidLine.tsx';
import { SettingPanel } from './SettingPanel.tsx';
import { StepSources } from './StepSources.tsx';
import { fastenerText } from './words.ts';

export interface StepDetailProps {
  plan: ResolvedPlan;
  step: ResolvedStep;
  /** Its number in the task, and how many there are. */
  number: number;
  of: number;
  /** What can be done with it. */
  actions?: ReactNode;
  /** Where its torque was taken from. */
  origin?: ReactNode;
  result: BagResult | null;
  /** What is said before it, its interface's and its own among it. */
  watchOuts: ReturnType<typeof useStepWatchOuts>;
  units: UnitsShown;
  headingRef: Ref<HTMLHeadingElement>;
  onStep: (by: 1 | -1) => void;
}

interface Named {
  judged: JudgedStack;
  note: string | null;
}

/** The lightest, the one in the planned bag, the next ones; each once. */
function namedStacks(plan: ResolvedPlan, step: ResolvedStep, result: BagResult | null): Named[] {
  const judgement = judgementOf(plan, step);
  if (judgement.best === null) return [];
  const planned = result?.outings.flatMap((outing) => outing.steps).find(({ id }) => id === step.id)?.stack ?? [];
  const known = [judgement.best, ...judgement.others];
  const extra =
    planned.length === 0 || known.some(({ stack }) => sameStack(planned, stack))
      ? []
      : [judgeStack(plan, step, planned)];
  const leastKg = Math.min(...known.map(({ massKg }) => massKg));
  return [...known, ...extra].map((judged) => {
    const notes = [
      ...(judged === judgement.best
        ? [judged.massKg > leastKg ? 'lightest that leaves the stock a hold' : 'lightest']
        : []),
      ...(sameStack(planned, judged.stack) ? ['in the planned bag'] : []),
      ...(isRightWay(plan, step, judged.stack) ? [] : ['measures the other way']),
    ];
    return { judged, note: notes.length === 0 ? null : notes.join(', ') };
  });
}

/** The step in hand: the drawing first, then what the words of it rest on. */
export function StepDetail(props: StepDetailProps) {
  const { plan, step, number, of, actions, origin, result, watchOuts, units, headingRef, onStep } = props;
  const [asked, setAsked] = useState<{ step: string; stack: string[] } | null>(null);
  const draw = (stack: string[]): void => setAsked({ step: step.id, stack });
  const written = plan.source.steps[plan.steps.indexOf(step)];
  const judgement = judgementOf(plan, step);
  const reaching = namedStacks(plan, step, result);
  const planned = reaching.find(({ note }) => note?.includes('planned') === true)?.judged;
  const nearest = judgement.closest.find(({ stack }) => stack.length > 0)?.stack ?? null;
  // One that measures the other way is drawn by itself only where there is no other.
  const offered = reaching.find(({ judged }) => isRightWay(plan, step, judged.stack))?.judged ?? judgement.best;
  const drawn = (asked?.step === step.id ? asked.stack : null) ?? planned?.stack ?? offered?.stack ?? nearest;
  const judged =
    drawn === null
      ? null
      : (reaching.find((one) => sameStack(drawn, one.judged.stack))?.judged ?? judgeStack(plan, step, drawn));
  if (written === undefined) return null;
  const held = heldWith(plan, step, judgement, result);
  const byHand = judgement.state === 'by-hand';

  return (
    <article className="bw-step" aria-labelledby="step-heading">
      <header className="bw-step-head">
        <h1 id="step-heading" ref={headingRef} tabIndex={-1} className="bw-heading">
          {number} · {step.name}
        </h1>
        <span className="bw-second">
          {step.fastener === null ? 'by hand or with gear' : fastenerText(step.fastener)} · {step.role}
          {written.minutes === undefined ? '' : ` · ${showNumber(written.minutes)}\u00a0min`}
          {step.contingency ? ' · only if it fails' : ''}
        </span>
        <span className="bw-step-walk">
          <WalkButton label="Previous step" ended={number === 1} onClick={() => onStep(-1)} />
          <WalkButton label="Next step" ended={number === of} onClick={() => onStep(1)} />
        </span>
      </header>
      {actions}

      <SaidWatchOuts
        title="Before this step"
        said={watchOuts.said}
        onWrite={watchOuts.write}
        first={
          (written.cautions ?? []).length === 0
            ? null
            : gravestFirst(written.cautions ?? []).map(({ word, text }, index) => (
                <li key={`${index} ${text}`}>
                  <b>{word}</b> {text}
                </li>
              ))
        }
      />

      <SaidLine plan={plan} step={step} judgement={judgement} stack={drawn} />
      <WayLine plan={plan} step={step} stack={drawn} />
      {drawn === null ? null : <StackDrawing plan={plan} step={step} stack={drawn} units={units} />}

      {byHand ? null : (
        <div className="bw-step-low">
          <section aria-labelledby="checks-heading">
            <h3 id="checks-heading">{judgement.state === 'reached' ? 'Checks' : 'Checks of the nearest'}</h3>
            {judged === null ? <p>There is no stack to check.</p> : <CheckList checks={judged.checks} units={units} />}
          </section>
          <div className="bw-step-set">
            <SettingPanel
              plan={plan}
              step={step}
              written={written}
              stack={judgement.state === 'reached' ? judged : null}
              judgement={judgement}
              units={units}
            />
            {step.callout === null ? null : (
              <BandFigure
                callout={step.callout}
                applied={judged?.applied ?? null}
                setting={judged?.setting ?? null}
                running={step.running}
                runningIncluded={step.runningIncluded}
                unit={step.shown.torque}
                units={units}
              />
            )}
          </div>
        </div>
      )}

      {held === null || step.hold === null ? null : (
        <section aria-labelledby="hold-heading">
          <h3 id="hold-heading">
            Held against turning with {stackText(plan, held.stack)}
            {held.planned ? <span className="bw-second"> · in the planned bag</span> : null}
          </h3>
          <StackDrawing
            plan={plan}
            step={{ ...step, fastener: step.hold.fastener, access: step.hold.access }}
            stack={held.stack}
            units={units}
          />
          <CheckList checks={held.checks} units={units} />
        </section>
      )}

      <GearAndMoves plan={plan} step={step} />

      {judgement.state !== 'not-reached' ? null : (
        <section aria-labelledby="closest-heading">
          <h3 id="closest-heading">Closest fits</h3>
          <ClosestFits plan={plan} fits={judgement.closest} units={units} drawn={drawn} onDraw={draw} />
        </section>
      )}
      {reaching.length === 0 || drawn === null ? null : (
        <OtherStacks
          plan={plan}
          stacks={reaching}
          lightest={1 + judgement.others.length}
          count={judgement.stackCount}
          drawn={drawn}
          onDraw={draw}
          units={units}
        />
      )}
      {origin}
      <StepSources plan={plan} step={step} written={written} stack={drawn} />
    </article>
  );
}

/** At the end of the row it stays where the focus is, and says that there is no further. */
function WalkButton({ label, ended, onClick }: { label: string; ended: boolean; onClick: () => void }) {
  return (
    <Button size="xs" aria-disabled={ended} data-disabled={ended} onClick={onClick}>
      {label}
    </Button>
  );
}
