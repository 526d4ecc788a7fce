import type { BagOuting } from '../../../shared-types/bag.ts';
import type { OrderProposal, SwapProposal } from '../../../shared-types/outing.ts';
import type { TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { ClockFacts } from './ClockFacts.tsx';
import { Finishing } from './Finishing.tsx';
import { LoosePieces } from './LoosePieces.tsx';
import { Proposals } from './Proposals.tsx';
import type { CourseState } from './useCourse.ts';

export interface CoursePartsProps {
  outing: TaskOuting;
  /** Steps of this outing. */
  steps: readonly TaskStep[];
  plan: ResolvedPlan;
  course: CourseState;
  /** The planned bags of the outing; null where none are. */
  planned: BagOuting | null;
  stepWords: (code: string) => { number: number; name: string };
  stepCalled: (code: string) => string;
  onOrder: (order: OrderProposal) => void;
  onSwap: (swap: SwapProposal) => void;
}

/** What following the pieces and the clock of an outing tells, as it becomes known. */
export function CourseParts(props: CoursePartsProps) {
  const { outing, steps, plan, course: state, planned, stepWords, stepCalled, onOrder, onSwap } = props;
  const { followed, course, failed } = state;
  const own = course?.outings.find((one) => one.outing === outing.code) ?? null;
  const named = (code: string): string => stepCalled(code).replace(/,$/, '');
  return (
    <>
      {failed === null ? null : (
        <p className="bw-form-notsaved" role="alert">
          How this outing runs could not be found out: {failed}
        </p>
      )}
      {course?.recount.length ? (
        <div className="bw-form-notsaved" role="alert">
          <p>The second count of the pieces does not agree with the first: do not rely on what is said of them.</p>
          <ul>
            {course.recount.map((says) => (
              <li key={says}>{says}</li>
            ))}
          </ul>
        </div>
      ) : null}
      {own === null ? null : <ClockFacts clock={own.clock} stepNamed={named} />}
      {followed === null ? null : (
        <LoosePieces
          key={outing.code}
          plan={plan}
          followed={followed}
          outing={outing.code}
          planned={planned !== null}
          stepWords={stepWords}
        />
      )}
      {own === null ? null : (
        <>
          <Finishing
            chance={own.chance}
            minutesMax={own.clock.minutesMax}
            spread={steps.some(({ spread, contingency }) => spread !== undefined && contingency !== true)}
          />
          <Proposals
            course={own}
            plan={plan}
            room={steps.some(({ after }) => after !== undefined)}
            stepWords={stepWords}
            stepCalled={stepCalled}
            onOrder={onOrder}
            onSwap={onSwap}
          />
        </>
      )}
      {own === null && failed === null ? (
        <p className="bw-second bw-small" role="status">
          {followed === null ? 'Following every piece…' : 'Looking for chances, orders and roles…'}
        </p>
      ) : null}
    </>
  );
}
