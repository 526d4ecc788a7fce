import type { Chance, FinishingChance } from '../../../shared-types/outing.ts';
import { roundNominal, showNumber } from '../../engine/units/index.ts';
import { Assumed } from '../../components/Assumed/Assumed.tsx';
import { Facts } from '../task/Facts.tsx';

/** What is not certain is not rounded to certainty. */
function percentText(share: number): string {
  const text = roundNominal(share * 100, 1);
  if (share < 1 && Number(text) === 100) return 'over 99.9';
  return share > 0 && Number(text) === 0 ? 'under 0.1' : text;
}

function chanceText({ probability, interval: { low, high, confidence } }: Chance): string {
  return `${percentText(probability)} %, between ${percentText(low)} and ${percentText(high)} % with ${confidence * 100} % confidence`;
}

function minutesText({ minutes: { mean, p10, p50, p90 } }: FinishingChance): string {
  const whole = (minutes: number): string => roundNominal(minutes, 0);
  return `${whole(mean)} on average; one outing in ten takes less than ${whole(p10)}, half less than ${whole(p50)}, nine in ten less than ${whole(p90)}`;
}

export interface FinishingProps {
  /** Null where there is nothing to draw from. */
  chance: FinishingChance | null;
  minutesMax: number | null;
  /** Whether any step of the outing says its spread. */
  spread: boolean;
}

/** The chance of finishing in time, with how it was found and what was taken as so. */
export function Finishing({ chance, minutesMax, spread }: FinishingProps) {
  return (
    <section className="bw-course-part" aria-labelledby="outing-chance">
      <h2 id="outing-chance">Chance of finishing in time</h2>
      {chance === null ? (
        <p className="bw-small">
          Not known:{' '}
          {[
            ...(spread ? [] : ['no step of this outing says the least, likely and most minutes it may take']),
            ...(minutesMax === null ? ['the outing says no limit'] : []),
          ].join('; ') || 'there is no step in its course'}
          .
        </p>
      ) : (
        <>
          <p className="bw-course-chance">
            {percentText(chance.finish.probability)} % of the outings drawn are done in time
          </p>
          <Facts
            facts={[
              ['Done in time', `${chanceText(chance.finish)}; the limit is ${showNumber(minutesMax ?? 0)} min`],
              [
                'And home again',
                chance.home === null ? 'not known: the outing does not say its way home' : chanceText(chance.home),
              ],
              ['Minutes of work out', minutesText(chance)],
              [
                'How',
                `${chance.samples.toLocaleString('en-GB')} outings drawn, seed ${chance.seed}: the same plan gives the same answer. ${chance.finish.interval.method}.`,
              ],
            ]}
          />
          <Assumed what={chance.assumptions} />
        </>
      )}
    </section>
  );
}
