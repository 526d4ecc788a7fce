import type { ReactNode, Ref } from 'react';
import type { TaskStep } from '../../../shared-types/records/task.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { Facts } from '../task/Facts.tsx';
import { SaidWatchOuts } from '../watchOuts/SaidWatchOuts.tsx';
import type { useStepWatchOuts } from '../watchOuts/useStepWatchOuts.ts';
import type { Filled } from './fromInterface.ts';
import type { Need } from './stepNeeds.ts';
import { keptCalloutText } from './stepRow.ts';
import { actionWords, contingencyWord, stepName } from './stepTexts.ts';

export interface UnfinishedStepProps {
  step: TaskStep;
  number: number;
  filled: Filled;
  needs: readonly Need[];
  watchOuts: ReturnType<typeof useStepWatchOuts>;
  units: UnitsShown;
  headingRef: Ref<HTMLHeadingElement>;
  actions: ReactNode;
}

/** A step that is kept and cannot be judged yet: what it still needs, and what is there of it. */
export function UnfinishedStep(props: UnfinishedStepProps) {
  const { step, number, filled, needs, watchOuts, units, headingRef, actions } = props;
  const torque = step.callout === undefined && step.demand === undefined ? undefined : keptCalloutText(step, units);
  return (
    <article className="bw-step" aria-labelledby="step-heading">
      <header className="bw-step-head">
        <h1 id="step-heading" ref={headingRef} tabIndex={-1} className="bw-heading">
          {number} · {stepName(step)}
        </h1>
      </header>
      {actions}
      <SaidWatchOuts title="Before this step" said={watchOuts.said} onWrite={watchOuts.write} />
      {needs.length === 0 ? (
        <p className="bw-said" role="status">
          Being read and judged…
        </p>
      ) : (
        <section aria-labelledby="needs-heading">
          <h2 id="needs-heading" className="bw-said">
            <StateMark state="not-complete" />: kept as it is, not judged yet
          </h2>
          <ul className="bw-needs">
            {needs.map(({ path, short, reason }) => (
              <li key={`${path} ${reason}`}>
                {short === reason ? null : <b>It {short}. </b>}
                {reason}
              </li>
            ))}
          </ul>
        </section>
      )}
      <Facts
        facts={[
          ['Action', actionWords[step.action]],
          ['Outing', step.outing],
          ['Role', step.role],
          ['Slot', step.slot],
          ['Fastener', filled.fastener],
          ['Count', filled.count?.toString()],
          ['Positions', step.positions],
          ['Torque', torque],
          ['Depth to the head', filled.access?.depth],
          ['Only', step.contingency === true ? contingencyWord(step) : undefined],
          ['Notes', step.notes],
        ]}
      />
    </article>
  );
}
