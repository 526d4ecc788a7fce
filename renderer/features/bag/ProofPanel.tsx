import { useMemo } from 'react';
import { recheckOuting, readdObjective } from '../../engine/bag/recheck.ts';
import { standingOf } from '../../engine/bagMap/standing.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import type { KeptResult } from '../../store/session.ts';
import { countOf } from '../steps/words.ts';
import { draftOf, wishText } from '../bagPlan/planDraft.ts';
import { amountText, objectiveWords, once } from './amounts.ts';
import { askedLast, toleranceWords } from './asked.ts';
import { SearchCourse } from './SearchCourse.tsx';

export interface ProofPanelProps {
  plan: ResolvedPlan;
  kept: KeptResult;
  /** Stacks that reach, over all steps; null while steps are still being judged. */
  stackCount: number | null;
  units: UnitsShown;
}

/** Best found, bound, gap, and a second count by a routine that shares nothing with the search. */
export function ProofPanel({ plan, kept, stackCount, units }: ProofPanelProps) {
  const { result, minimised, timeLimitS, plannedAt } = kept;
  const { objective } = result;
  const wrong = useMemo(
    () =>
      result.outings.flatMap((answer) => {
        const outing = plan.outings.find(({ id }) => id === answer.id);
        return outing === undefined
          ? [`outing ${answer.id} is not in the plan`]
          : recheckOuting(plan, outing, answer, standingOf(result));
      }),
    [plan, result],
  );
  if (objective === null) return null;
  const readded = readdObjective(plan, result.outings, minimised);
  const stepCount = result.outings.reduce((sum, { steps }) => sum + steps.length, 0);
  const wished = draftOf(askedLast(kept)).wishes.map((wish) => wishText(plan, wish));
  const { course = [] } = kept;
  const pieces = [...plan.carried.values()].reduce((sum, { onHand }) => sum + onHand, 0);
  return (
    <section aria-labelledby="proof-heading">
      <h3 id="proof-heading">Proof</h3>
      <dl className="bw-facts">
        <dt>Asked for</dt>
        <dd>
          {objectiveWords[minimised]} over {countOf(result.outings.length, 'outing')}
          {timeLimitS === null ? ', no time limit' : `, at most ${showNumber(timeLimitS)} s`}
        </dd>
        <dt>Stands</dt>
        <dd>{toleranceWords[kept.tolerance ?? 'nothing']}</dd>
        {wished.length === 0 ? null : (
          <>
            <dt>With</dt>
            <dd>
              {wished.map((text) => (
                <div key={text}>{text}</div>
              ))}
            </dd>
          </>
        )}
        <dt>Best found</dt>
        <dd>{amountText(objective.value, objective.unit, units)}</dd>
        <dt>Nothing below</dt>
        <dd>
          {amountText(objective.bound, objective.unit, units)}, gap {showNumber(objective.gap * 100, 3)} %
        </dd>
        <dt>Checked again</dt>
        <dd>
          {wrong.length === 0
            ? `by an independent count: ${countOf(stepCount, 'step')} and every bag limit in order, sum ${amountText(readded, objective.unit, once(units))}`
            : `the independent count disagrees: ${wrong.join('; ')}`}
        </dd>
        <dt>Looked through</dt>
        <dd>
          {stackCount === null ? 'stacks being counted' : `${showNumber(stackCount, 9)} stacks that reach`}, {pieces}{' '}
          pieces on hand
        </dd>
        <dt>Planned</dt>
        <dd>{new Date(plannedAt).toLocaleString('en-GB', { dateStyle: 'medium', timeStyle: 'short' })}</dd>
      </dl>
      {course.length === 0 ? null : (
        <SearchCourse
          plan={plan}
          moments={course}
          untilS={course.at(-1)?.atS ?? 0}
          minimised={minimised}
          units={units}
        />
      )}
      <p className="bw-source">
        Masses, volumes and limits: as given in the plan. The sum counts everything taken, gear included
        {minimised === 'mass' ? ', and each used bag itself' : ''}. Ties are broken the same way every time.
      </p>
    </section>
  );
}
