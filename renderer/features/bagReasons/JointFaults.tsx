import type { MeasuredLimit, StepConflict } from '../../../shared-types/bagReasons.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { amountText, once } from '../bag/amounts.ts';
import { withNames } from '../bag/Findings.tsx';
import { fewNumbersText } from '../steps/words.ts';
import { ClosestFits } from '../steps/ClosestFits.tsx';
import { limitText, usedText } from './reasonWords.ts';
import type { ReasonsState } from './useReasons.ts';

export interface JointFaultsProps {
  plan: ResolvedPlan;
  reasons: ReasonsState;
  units: UnitsShown;
}

/** Steps that are possible each by itself and not together, with the limits that stand in the way; losses not survived. */
export function JointFaults({ plan, reasons, units }: JointFaultsProps) {
  const { conflicts, losses } = reasons.found;
  return (
    <>
      {reasons.kind === 'running' && conflicts.length === 0 && losses.length === 0 ? (
        <p className="bw-second" role="status">
          Looking for the steps that do not go together…
        </p>
      ) : null}
      {reasons.kind === 'failed' ? (
        <p className="bw-second">No more is known of it: {reasons.refusal ?? 'the search for reasons stopped'}.</p>
      ) : null}
      {conflicts.map((conflict, index) => (
        <section key={index} className="bw-fault" aria-label={`Not together ${index + 1}`}>
          <h3>Not together: {stepsText(plan, conflict)}</h3>
          <p>{withNames(plan, conflict.reason)}</p>
          <ul className="bw-lines">
            {conflict.eased.map((limit, at) => (
              <li key={at}>
                <b>{limitText(plan, limit)}</b>
                <span>{easedText(limit, limit.needs, limit.least, once(units))}</span>
              </li>
            ))}
            {conflict.easedTogether.map((limit, at) => (
              <li key={`with ${at}`}>
                <b>{limitText(plan, limit)}</b>
                <span>{usedText(limit, once(units))}, in the way only with the others</span>
              </li>
            ))}
          </ul>
        </section>
      ))}
      {losses.map(({ reason, closest, step }, index) => (
        <section key={`${step} ${index}`} className="bw-fault" aria-label={`Loss ${index + 1}`}>
          <p>{withNames(plan, reason)}</p>
          {closest.length === 0 ? null : <ClosestFits plan={plan} fits={closest} units={units} />}
        </section>
      ))}
    </>
  );
}

function stepsText(plan: ResolvedPlan, { steps }: StepConflict): string {
  const numbers = new Map(plan.steps.map(({ id }, index) => [id, index + 1]));
  return `${steps.length === 1 ? 'step' : 'steps'} ${fewNumbersText(steps.flatMap((id) => numbers.get(id) ?? []))}`;
}

/** "at most 2.000 kg; with 2.310 kg they go together, with less they do not" */
function easedText(limit: MeasuredLimit, needs: number | null, least: boolean, mode: UnitsShown): string {
  const { unit } = limit;
  const now = usedText({ ...limit, used: null }, mode);
  if (needs === null || unit === null)
    return [now, 'without it they go together'].filter((text) => text !== '').join('; ');
  const amount = unit === 'tether points' ? `${showNumber(needs)} tether points` : amountText(needs, unit, mode);
  return `${now}; with ${amount} they go together${least ? ', with less they do not' : ''}`;
}
