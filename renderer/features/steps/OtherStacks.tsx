import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { JudgedStack } from '../../engine/stack/judged.ts';
import { showNumber, showQuantity } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { sameStack, stackText } from './ClosestFits.tsx';

export interface OtherStacksProps {
  plan: ResolvedPlan;
  /** Lightest first; with what makes each worth naming. */
  stacks: { judged: JudgedStack; note: string | null }[];
  /** How many of them are named for being the lightest; one more is the planned bag's. */
  lightest: number;
  count: number;
  drawn: string[];
  onDraw: (stack: string[]) => void;
  units: UnitsShown;
}

function headingText(named: number, lightest: number, count: number): string {
  if (count === 1) return 'The one stack that reaches';
  if (named >= count) return `Stacks that reach: all ${count}`;
  const planned = named > lightest ? ', and the planned one' : '';
  return `Stacks that reach: the lightest ${lightest} of ${count}${planned}`;
}

/** The stacks that reach, to be drawn in turn. */
export function OtherStacks({ plan, stacks, lightest, count, drawn, onDraw, units }: OtherStacksProps) {
  const once = units === 'both' ? 'both' : units;
  return (
    <section aria-labelledby="other-stacks">
      <h3 id="other-stacks">{headingText(stacks.length, lightest, count)}</h3>
      <ul className="bw-stacks">
        {stacks.map(({ judged, note }) => (
          <li key={judged.stack.join(' ')}>
            <button
              type="button"
              className="bw-link"
              aria-pressed={sameStack(drawn, judged.stack)}
              onClick={() => onDraw(judged.stack)}
            >
              {stackText(plan, judged.stack)}
            </button>{' '}
            <span className="bw-second">
              {showQuantity(`${showNumber(judged.massKg, 4)} kg`, once)}
              {note === null ? '' : ` · ${note}`}
              {sameStack(drawn, judged.stack) ? ' · drawn above' : ''}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
