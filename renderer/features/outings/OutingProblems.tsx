import type { PlanProblem } from '../../../shared-types/bag.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { showNumber } from '../../engine/units/index.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { itemName, placeText } from '../steps/words.ts';

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
  problems: readonly PlanProblem[];
  stepCalled: (code: string) => string;
}

/** What is wrong with the course of an outing, each with its word and shape. */
export function OutingProblems({ plan, problems, stepCalled }: OutingProblemsProps) {
  if (problems.length === 0) return null;
  return (
    <section aria-labelledby="outing-problems">
      <h2 id="outing-problems">Problems</h2>
      <ul className="bw-task-list">
        {problems.map((problem, index) => (
          <li key={index}>
            <StateMark state={problem.rule} />
            <span>{problemText(plan, problem, stepCalled)}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
