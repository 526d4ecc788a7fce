import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { JudgedStack } from '../../engine/stack/judged.ts';
import { showNumber, showQuantity } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { sameStack, stackText } from './ClosestFits.tsx';

export interface OtherStacksProps {
  plan: ResolvedPlan;
  /** Lightest first; with what makes each worth naming. */
  stacks: { judged: JudgedStack; note: string | null }[];
  count: number;
  drawn: string[];
  onDraw: (stack: string[]) => void;
  units: UnitsShown;
}

/** The stacks that reach, to be drawn in turn. */
export function OtherStacks({ plan, stacks, count, drawn, onDraw, units }: OtherStacksProps) {
  const once = units === 'both' ? 'both' : units;
  return (
    <section aria-labelledby="other-stacks">
      <h3 id="other-stacks">
        {count === 1 ? 'The one stack that reaches' : `Stacks that reach, ${stacks.length} of ${count}`}
      </h3>
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
