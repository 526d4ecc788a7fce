import type { LimitReason, LimitsTogether } from '../../../shared-types/bagReasons.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { once } from '../bag/amounts.ts';
import { limitText, provenText, usedText } from './reasonWords.ts';
import type { ReasonsState } from './useReasons.ts';

export interface HoldsBackProps {
  plan: ResolvedPlan;
  reasons: ReasonsState;
  units: UnitsShown;
}

/** Which limits bind: without them the answer would be less. */
export function HoldsBack({ plan, reasons, units }: HoldsBackProps) {
  const { limits, limitsTogether } = reasons.found;
  const binding = limits.filter(({ binds }) => binds === true);
  const open = limits.filter(({ binds }) => binds === null);
  if (limits.length === 0 && limitsTogether.length === 0 && reasons.kind !== 'running') return null;
  const mode = once(units);
  return (
    <section aria-labelledby="binds-heading">
      <h3 id="binds-heading">Limits that hold it back</h3>
      {binding.length === 0 && limitsTogether.length === 0 ? (
        <p className="bw-second">
          {reasons.kind === 'running'
            ? 'Being worked out: the plan is asked again without each limit.'
            : 'None: without any one limit of bags, stock, slots or wishes the answer is the same.'}
        </p>
      ) : (
        <ul className="bw-lines">
          {binding.map((reason, index) => (
            <li key={index}>
              <b>{limitText(plan, reason)}</b>
              <span>
                {[usedText(reason, mode), relaxedText(reason, mode)].filter((text) => text !== '').join('; ')}
              </span>
            </li>
          ))}
          {limitsTogether.map((together, index) => (
            <li key={`together ${index}`}>
              <b>{together.limits.map((limit) => limitText(plan, limit)).join(' and ')}</b>
              <span>only together; {relaxedText(together, mode)}</span>
            </li>
          ))}
        </ul>
      )}
      {open.length === 0 ? null : (
        <p className="bw-second">
          Not known in the time given: {open.map((reason) => limitText(plan, reason)).join(', ')}.
        </p>
      )}
    </section>
  );
}

function relaxedText({ relaxed, objectiveUnit }: LimitReason | LimitsTogether, mode: UnitsShown): string {
  return relaxed === null ? '' : `without it ${provenText(relaxed, objectiveUnit, mode)}`;
}
