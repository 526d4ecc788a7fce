import { useMemo } from 'react';
import { shownHead } from '../../engine/stack/shown.ts';
import type { ResolvedFastener, ResolvedPlan } from '../../engine/plan/resolved.ts';
import { showBand } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { placeAddress } from '../../store/place.ts';
import { numbersText } from '../steps/words.ts';

interface Touched {
  fastener: ResolvedFastener;
  steps: { number: number; id: string; count: number }[];
  /** Each band once, as it is shown. */
  callouts: string[];
}

function touchedOf(plan: ResolvedPlan, units: UnitsShown): Touched[] {
  const all = new Map<string, Touched>();
  for (const [index, step] of plan.steps.entries()) {
    if (step.fastener === null) continue;
    const one = all.get(step.fastener.id) ?? { fastener: step.fastener, steps: [], callouts: [] };
    all.set(step.fastener.id, one);
    const source = plan.source.steps[index];
    one.steps.push({ number: index + 1, id: step.id, count: source?.count ?? 1 });
    const band = source?.callout;
    if (band === undefined) continue;
    const text = showBand(band.min, band.max, units);
    if (!one.callouts.includes(text)) one.callouts.push(text);
  }
  return [...all.values()];
}

/** Every fastener that hands touch, with its torque as called out. */
export function TouchedTable({ plan, units }: { plan: ResolvedPlan; units: UnitsShown }) {
  const touched = useMemo(() => touchedOf(plan, units), [plan, units]);
  const byHand = plan.steps.filter((step) => step.fastener === null).length;
  return (
    <section className="bw-front-card" aria-labelledby="touched">
      <h2 id="touched">What hands touch</h2>
      {touched.length === 0 ? (
        <p className="bw-second">
          {byHand > 0 ? 'No fastener: every step is done by hand. ' : 'No step yet. '}
          <a href={placeAddress({ at: 'steps' })}>{byHand > 0 ? 'See the steps' : 'Add the first step'}</a>
        </p>
      ) : (
        <div className="bw-front-scroll" tabIndex={0} role="region" aria-label="What hands touch, as a table">
          <table className="bw-front-table">
            <thead>
              <tr>
                <th scope="col">Fastener</th>
                <th scope="col">Thread</th>
                <th scope="col">Head</th>
                <th scope="col">Steps</th>
                <th scope="col" className="bw-front-number">
                  Most at once
                </th>
                <th scope="col">Torque called out</th>
              </tr>
            </thead>
            <tbody>
              {touched.map(({ fastener, steps, callouts }) => (
                <tr key={fastener.id}>
                  <th scope="row">{fastener.name}</th>
                  <td>{fastener.thread}</td>
                  <td>{shownHead(fastener.headForm, fastener.acrossFlats)}</td>
                  <td>
                    <a href={placeAddress({ at: 'steps', step: steps[0]?.id ?? '' })}>
                      {numbersText(steps.map(({ number }) => number))}
                    </a>
                  </td>
                  <td className="bw-front-number">{Math.max(...steps.map(({ count }) => count))}</td>
                  <td>
                    {callouts.length === 0 ? (
                      <span className="bw-second">none: it is loosened only</span>
                    ) : (
                      callouts.map((text) => <div key={text}>{text}</div>)
                    )}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {byHand === 0 || touched.length === 0 ? null : (
        <p className="bw-second">{byHand === 1 ? '1 step is' : `${byHand} steps are`} done by hand.</p>
      )}
    </section>
  );
}
