import type { BagResult } from '../../../shared-types/bag.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import type { KeptResult } from '../../store/session.ts';
import { countOf } from '../steps/words.ts';
import { amountText } from './amounts.ts';

const least = { mass: 'no lighter set', count: 'no smaller set', volume: 'no less bulky set' } as const;

/** "4 %": never a rounded zero for a gap that is there. */
export function gapText(gap: number): string {
  return `${showNumber(gap * 100, 2)} %`;
}

export function stateOf(result: BagResult): 'proved-least' | 'not-proved' | 'infeasible' {
  if (result.status === 'infeasible') return 'infeasible';
  return result.status === 'optimal' ? 'proved-least' : 'not-proved';
}

/** What the search ended with, in one line. */
export function BagHeading({ kept, units }: { kept: KeptResult; units: UnitsShown }) {
  const { result, minimised } = kept;
  const { objective } = result;
  const stepCount = result.outings.reduce((sum, { steps }) => sum + steps.length, 0);
  if (result.status === 'infeasible')
    return (
      <div className="bw-bag-heading">
        <h1>
          <StateMark
            size={20}
            state="infeasible"
            text={`No bag does it: ${countOf(result.infeasible.length, 'fault')}`}
          />
        </h1>
        <span className="bw-second">each below with what comes closest</span>
      </div>
    );
  if (objective === null)
    return (
      <div className="bw-bag-heading">
        <h1>
          <StateMark size={20} state="not-proved" text="Not proved: no bag found in the time given" />
        </h1>
      </div>
    );
  const value = amountText(objective.value, objective.unit, units);
  return (
    <div className="bw-bag-heading">
      <h1>
        {result.status === 'optimal' ? (
          <StateMark size={20} state="proved-least" text={`Proved least: ${value}`} />
        ) : (
          <StateMark size={20} state="not-proved" text={`Not proved (bound ${gapText(objective.gap)}): ${value}`} />
        )}
      </h1>
      <span className="bw-second">
        {result.status === 'optimal'
          ? `${least[minimised]} of the stock does all ${countOf(stepCount, 'step')} of ${countOf(result.outings.length, 'outing')}`
          : `a better one, if there is any, is at most ${gapText(objective.gap)} better`}
      </span>
    </div>
  );
}
