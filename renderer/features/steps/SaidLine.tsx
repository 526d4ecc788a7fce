import type { ResolvedPlan, ResolvedStep } from '../../engine/plan/resolved.ts';
import type { StepJudgement } from '../../engine/stack/judged.ts';
import { Balloon } from '../../components/Balloon/Balloon.tsx';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { itemName } from './words.ts';

export interface SaidLineProps {
  plan: ResolvedPlan;
  step: ResolvedStep;
  judgement: StepJudgement;
  /** The stack drawn below, part numbers as in the drawing. */
  stack: string[] | null;
}

function StackWords({ plan, stack }: { plan: ResolvedPlan; stack: string[] }) {
  return (
    <>
      {stack.map((id, index) => (
        <span key={index}>
          {index === 0 ? '' : ', '}
          <Balloon number={index + 1} /> <b>{itemName(plan, id)}</b>
        </span>
      ))}
    </>
  );
}

/** The state, and with which parts on which head. */
export function SaidLine({ plan, step, judgement, stack }: SaidLineProps) {
  const mark = <StateMark state={judgement.state} />;
  if (step.action === 'use' || judgement.state === 'by-hand')
    return <p className="bw-said">{mark}: no stack is needed for this step.</p>;
  const head = step.fastener?.name ?? 'the head';
  if (judgement.state === 'not-reached')
    return (
      <p className="bw-said">
        {mark} with the stock of this plan.
        {stack === null ? ' No stack comes near it.' : ' Nearest, drawn below: '}
        {stack === null ? null : (
          <>
            <StackWords plan={plan} stack={stack} /> on <Balloon number={stack.length + 1} /> {head}.
          </>
        )}
      </p>
    );
  return (
    <p className="bw-said">
      {mark} with {stack === null ? null : <StackWords plan={plan} stack={stack} />} on{' '}
      <Balloon number={(stack?.length ?? 0) + 1} /> <b>{head}</b>.
    </p>
  );
}
