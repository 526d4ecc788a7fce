import type { PlanProblem } from '../../../shared-types/bag.ts';
import type { CourseProblem } from '../../../shared-types/outing.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { showNumber } from '../../engine/units/index.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { itemName, placeText } from '../steps/words.ts';
import { courseProblemText, isSame, problemMarks } from './courseWords.ts';
import { StepLink } from './StepLink.tsx';

/** In words: what is where it should not be, or not where it is looked for; what is over its time. */
function problemText(plan: ResolvedPlan, problem: PlanProblem, stepCalled: (code: string) => string): string {
  const { rule, id, quantity, place, step } = problem;
  if (rule === 'over-time') return `${showNumber(quantity)} min over what it may last`;
  const what = `${showNumber(quantity)} × ${itemName(plan, id)}`;
  const where = place === undefined ? '' : placeText(plan, place);
  const by = step === undefined ? '' : stepCalled(step);
  return rule === 'not-there'
    ? `${what} at ${where}: ${by} moves it from there, and it is not there`
    : `${what} at ${where}: put there by ${by}, and fetched by nobody`;
}

export interface OutingProblemsProps {
  plan: ResolvedPlan;
  /** What the plan itself says is wrong, known at once. */
  problems: readonly PlanProblem[];
  /** What following every piece finds, numbered as the drawing marks them. */
  followed: readonly CourseProblem[];
  /** How far the pieces have been followed. */
  following: 'running' | 'done' | 'failed';
  /** Name of the outing, where those of others stand beside. */
  of: string | null;
  /** Key of the list. */
  id: string;
  stepCalled: (code: string) => string;
}

const noneWords = {
  running: 'None in the plan; every piece is being followed.',
  done: 'None found.',
  failed: 'None in the plan; the pieces could not be followed.',
} as const;

/** What is wrong with the course of an outing, each with its word and shape, and with the step that would mend it. */
export function OutingProblems({ plan, problems, followed, following, of, id, stepCalled }: OutingProblemsProps) {
  const known = problems.filter((problem) => !followed.some((other) => isSame(problem, other)));
  const named = (code: string): string => stepCalled(code).replace(/,$/, '');
  return (
    <section aria-labelledby={`${id}-heading`}>
      <h2 id={`${id}-heading`} tabIndex={-1} className="bw-heading bw-course-problems">
        {of === null ? 'Problems' : `Problems of ${of}`}
      </h2>
      {known.length + followed.length > 0 ? null : <p className="bw-second bw-small">{noneWords[following]}</p>}
      <ul className="bw-task-list" hidden={known.length + followed.length === 0}>
        {known.map((problem, index) => (
          <li key={index} className="bw-course-problem">
            <StateMark state={problem.rule} />
            <span>{problemText(plan, problem, stepCalled)}</span>
          </li>
        ))}
        {followed.map((problem, index) => (
          <li key={`followed ${index}`} id={`${id}-${index + 1}`} tabIndex={-1} className="bw-course-problem">
            <span className="bw-second">{index + 1}</span>
            <StateMark state={problemMarks[problem.rule]} />
            <span>
              {courseProblemText(plan, problem, stepCalled)}
              {problem.step === null ? null : (
                <>
                  {' · at '}
                  <StepLink step={problem.step}>{named(problem.step)}</StepLink>
                </>
              )}
            </span>
            {problem.mends.length === 0 ? null : (
              <ul className="bw-course-mends" aria-label={`What would mend problem ${index + 1}`}>
                {problem.mends.map(({ step, says }, at) => (
                  <li key={at} className="bw-course-mend">
                    <span>{says}</span>
                    {step === undefined ? null : <StepLink step={step}>{`Go to ${named(step)}`}</StepLink>}
                  </li>
                ))}
              </ul>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
