import type { OutingClock } from '../../../shared-types/outing.ts';
import { showNumber } from '../../engine/units/index.ts';
import { Facts } from '../task/Facts.tsx';
import { StepLink } from './StepLink.tsx';
import { clockText } from './timelineLayout.ts';

export interface ClockFactsProps {
  clock: OutingClock;
  stepNamed: (code: string) => string;
}

/** The outing's clock in words: its limit, by when and after which step to turn, where the work may be left. */
export function ClockFacts({ clock, stepNamed }: ClockFactsProps) {
  const { endMin, minutesMax, overMin, turnBack, safe } = clock;
  const link = (step: string) => <StepLink step={step}>{stepNamed(step)}</StepLink>;
  const limit =
    minutesMax === null
      ? 'none said'
      : `${clockText(minutesMax)} (${showNumber(minutesMax)} min); the work ends at ${clockText(endMin)}${overMin > 0 ? `, ${showNumber(overMin)} min over` : ''}`;
  return (
    <section className="bw-course-part" aria-labelledby="outing-clock">
      <h2 id="outing-clock">The clock</h2>
      <Facts
        facts={[
          ['Limit', limit],
          [
            'Turn back',
            turnBack === null ? (
              `not known: ${minutesMax === null ? 'the outing says no limit' : 'the outing does not say its way home'}`
            ) : (
              <>
                by {clockText(turnBack.latestMin < 0 ? 0 : turnBack.latestMin)} at the latest, for a way home of{' '}
                {showNumber(turnBack.minutes)} min:{' '}
                {turnBack.step === null ? 'no step fits before it' : <>after {link(turnBack.step)}</>}
                {turnBack.allFits ? ', the last of all' : ''}
              </>
            ),
          ],
          [
            'Last safe stop before that',
            turnBack === null
              ? null
              : turnBack.safeStep === null
                ? safe.length === 0
                  ? 'not known: no step is said to be safe to leave'
                  : 'none: turn before the first step'
                : link(turnBack.safeStep),
          ],
          [
            'Safe to leave',
            safe.length === 0 ? (
              turnBack === null ? (
                'no step is said to be'
              ) : null
            ) : (
              <ul>
                {safe.map(({ step, endMin: at, slackMin, stretchMin }) => (
                  <li key={step}>
                    after {link(step)}, at {clockText(at)}
                    {slackMin === null
                      ? ''
                      : slackMin < 0
                        ? `, ${showNumber(-slackMin)} min too late to turn`
                        : `, ${showNumber(slackMin)} min before the turn`}
                    ; in the {showNumber(stretchMin)} min up to it the work cannot be left
                  </li>
                ))}
              </ul>
            ),
          ],
        ]}
      />
      <p className="bw-second bw-small">
        The way home is kept free until it is begun (common practice, no source). Minutes as the steps say them.
      </p>
    </section>
  );
}
