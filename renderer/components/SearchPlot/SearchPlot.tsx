import { useElementSize } from '@mantine/hooks';
import { useId, useMemo } from 'react';
import type { SearchMoment } from '../../../shared-types/records/window.ts';
import { roundNominal } from '../../engine/units/index.ts';
import { searchPlotLayout } from './searchPlotLayout.ts';
import type { PlotScale } from './searchPlotLayout.ts';
import classes from './SearchPlot.module.css';

export interface SearchPlotProps {
  moments: readonly SearchMoment[];
  /** How far the time axis goes. */
  untilS: number;
  /** What the left axis is of: "mass". */
  quantity: string;
  /** The left axis' unit, and the right one's where two are shown. */
  scales: readonly [PlotScale, ...PlotScale[]];
  /** An amount of the moments' unit in words. */
  amount: (value: number) => string;
  outingName: (id: string) => string;
}

const firstWidthPx = 520;
const leastWidthPx = 260;
const rowsMost = 60;

/** Best answer and bound over the time of a search. What lies between them is still open, and is hatched. */
export function SearchPlot(props: SearchPlotProps) {
  const { moments, untilS, quantity, scales, amount, outingName } = props;
  const id = useId();
  const { ref, width } = useElementSize<HTMLDivElement>();
  const widthPx = Math.max(leastWidthPx, Math.floor(width || firstWidthPx));
  const layout = useMemo(
    () => searchPlotLayout({ moments, untilS, widthPx, scales }),
    [moments, untilS, widthPx, scales],
  );
  const { leftPx, rightPx, topPx, bottomPx, heightPx } = layout;
  const [first, second] = scales;
  return (
    <figure className={classes['figure']} aria-label="Course of the search">
      <div ref={ref} className={classes['frame']}>
        <svg
          width={widthPx}
          height={heightPx}
          viewBox={`0 0 ${widthPx} ${heightPx}`}
          role="img"
          aria-label={saidOf(moments, { amount, outingName })}
        >
          <defs>
            <pattern id={`${id}-open`} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
              <path className={classes['hatch']} d="M0 0V6" />
            </pattern>
          </defs>
          {layout.left.map(({ px, text }) => (
            <g key={text}>
              <path className={classes['grid']} d={`M${leftPx} ${px}H${rightPx}`} />
              <text className={classes['tick']} x={leftPx - 6} y={px + 4} textAnchor="end">
                {text}
              </text>
            </g>
          ))}
          {layout.right.map(({ px, text }) => (
            <g key={text}>
              <path className={classes['axis']} d={`M${rightPx} ${px}h4`} />
              <text className={classes['tick']} x={rightPx + 7} y={px + 4}>
                {text}
              </text>
            </g>
          ))}
          {layout.seconds.map(({ px, text }) => (
            <g key={text}>
              <path className={classes['axis']} d={`M${px} ${bottomPx}v4`} />
              <text className={classes['tick']} x={px} y={bottomPx + 17} textAnchor="middle">
                {text}
              </text>
            </g>
          ))}
          {layout.runs.map(({ outing, fromPx, gap, best, bound }, index) => (
            <g key={`${outing} ${index}`}>
              {index === 0 ? null : <path className={classes['between']} d={`M${fromPx} ${topPx}V${bottomPx}`} />}
              {gap === null ? null : (
                <path className={classes['gap']} d={gap} style={{ fill: `url(#${id}-open)` }} data-plot="gap" />
              )}
              {bound === null ? null : <path className={classes['bound']} d={bound} data-plot="bound" />}
              {best === null ? null : <path className={classes['best']} d={best} data-plot="best" />}
            </g>
          ))}
          <path className={classes['axis']} d={`M${leftPx} ${topPx}V${bottomPx}H${rightPx}`} />
          {second === undefined ? null : <path className={classes['axis']} d={`M${rightPx} ${topPx}V${bottomPx}`} />}
          <text className={classes['name']} x={2} y={12}>
            {quantity} / {first.unit}
          </text>
          {second === undefined ? null : (
            <text className={classes['name']} x={widthPx - 2} y={12} textAnchor="end">
              {quantity} / {second.unit}
            </text>
          )}
          <text className={classes['name']} x={rightPx} y={bottomPx + 34} textAnchor="end">
            time / s
          </text>
        </svg>
      </div>
      <figcaption className={classes['caption']}>
        <Sample word="best found" className="best" />
        <Sample word="nothing below" className="bound" />
        <span className={classes['sample']}>
          <svg width="30" height="12" aria-hidden="true">
            <rect className={classes['gap']} style={{ fill: `url(#${id}-open)` }} x="1" y="1" width="28" height="10" />
          </svg>
          still open
        </span>
      </figcaption>
      <details className={classes['details']}>
        <summary>As table</summary>
        <MomentTable {...props} />
      </details>
    </figure>
  );
}

function Sample({ word, className }: { word: string; className: 'best' | 'bound' }) {
  return (
    <span className={classes['sample']}>
      <svg width="30" height="12" aria-hidden="true">
        <path className={classes[className]} d="M1 6H29" />
      </svg>
      {word}
    </span>
  );
}

function MomentTable({ moments, amount, outingName }: SearchPlotProps) {
  const shown = moments.slice(-rowsMost);
  return (
    <>
      <table className={classes['table']}>
        <thead>
          <tr>
            <th scope="col">After</th>
            <th scope="col">Outing</th>
            <th scope="col">Best found</th>
            <th scope="col">Nothing below</th>
            <th scope="col">Open</th>
          </tr>
        </thead>
        <tbody>
          {shown.map(({ atS, outing, best, bound }, index) => (
            <tr key={index}>
              <td>{secondsText(atS)}</td>
              <td>{outingName(outing)}</td>
              <td>{best === null ? 'none yet' : amount(best)}</td>
              <td>{bound === null ? 'not known yet' : amount(bound)}</td>
              <td>{openText(best, bound)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {shown.length < moments.length ? (
        <p className={classes['note']}>
          The last {shown.length} of {moments.length} moments.
        </p>
      ) : null}
    </>
  );
}

const secondsText = (atS: number): string => `${roundNominal(atS, atS < 10 ? 2 : 1)} s`;

function openText(best: number | null, bound: number | null): string {
  if (best === null || bound === null || best <= 0) return 'not known yet';
  const open = ((best - bound) / best) * 100;
  // A gap that is there is never rounded away.
  if (open <= 0) return '0 %';
  return open < 0.1 ? 'under 0.1 %' : `${roundNominal(open, 1)} %`;
}

/** What the drawing shows, for those who cannot see it. */
function saidOf(
  moments: readonly SearchMoment[],
  { amount, outingName }: Pick<SearchPlotProps, 'amount' | 'outingName'>,
): string {
  const outings = [...new Set(moments.map(({ outing }) => outing))];
  if (outings.length === 0) return 'Course of the search: nothing is known yet.';
  const parts = outings.map((outing) => {
    const last = moments.findLast((moment) => moment.outing === outing);
    const best = last?.best ?? null;
    const bound = last?.bound ?? null;
    return `${outingName(outing)} after ${secondsText(last?.atS ?? 0)}: best ${
      best === null ? 'none yet' : amount(best)
    }, nothing below ${bound === null ? 'not known yet' : amount(bound)}, open ${openText(best, bound)}`;
  });
  return `Course of the search. ${parts.join('. ')}.`;
}
