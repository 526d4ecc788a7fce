import type { ResolvedPlan, ResolvedStep } from '../../engine/plan/resolved.ts';
import type { StepJudgement } from '../../engine/stack/judged.ts';
import { otherWayOf, otherWayText } from '../../engine/stack/otherWay.ts';
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

/** Beside the checks: whether the torque tool of the stack in hand measures the way the thread tightens. No rule of the planner asks. */
export function WayLine({ plan, step, stack }: Pick<SaidLineProps, 'plan' | 'step' | 'stack'>) {
  const way = stack === null ? null : otherWayOf(plan, step, stack);
  if (way === null) return null;
  const known = way.measures !== null;
  return (
    <p className="bw-said">
      <StateMark state={known ? 'other-way' : 'indeterminate'} text={known ? undefined : 'Direction not given'} />:{' '}
      {otherWayText(way)}.{' '}
      {known
        ? 'Its card gives no setting. Choose another stack below, and plan with this tool forbidden where the bag holds it.'
        : 'Say it in the catalog, or see that it does before it is set.'}
    </p>
  );
}
