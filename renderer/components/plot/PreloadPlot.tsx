import { useId } from 'react';
import { convertValue, showNumber } from '../../engine/units/index.ts';
import { LimitLines } from './LimitLines.tsx';
import { PlotFigure, Sample, type PlotAbout, type PlotTable } from './PlotFigure.tsx';
import { PlotFrame } from './PlotFrame.tsx';
import { preloadPlotLayout, type PreloadPlotData } from './preloadPlotLayout.ts';
import classes from './Plot.module.css';

export type PreloadPlotProps = PreloadPlotData & PlotAbout;

/** Preload against seating torque: the band asked for, the scatter around the nominal line, and what limits it. */
export function PreloadPlot(props: PreloadPlotProps) {
  const { limits } = props;
  const id = useId();
  return (
    <PlotFigure
      {...props}
      table={preloadTable(props)}
      legend="Thick line: nominal. Hatched: scatter. Shaded: torque band. Hatched across: beyond a limit."
      samples={
        <>
          <Sample words="nominal">
            <path className={classes['nominal']} d="M1 6H31" />
          </Sample>
          <Sample words="scatter">
            <rect className={classes['area']} style={{ fill: `url(#${id}-scatter)` }} width="32" height="12" />
          </Sample>
          <Sample words="torque band">
            <rect className={classes['band']} width="32" height="12" />
          </Sample>
          {limits.length === 0 ? null : (
            <Sample words="beyond a limit">
              <rect className={classes['short']} style={{ fill: `url(#${id}-short)` }} width="32" height="12" />
            </Sample>
          )}
        </>
      }
    >
      {(widthPx) => <Drawing {...props} widthPx={widthPx} id={id} />}
    </PlotFigure>
  );
}

function Drawing({ widthPx, id, ...data }: PreloadPlotProps & { widthPx: number; id: string }) {
  const layout = preloadPlotLayout(data, widthPx);
  const { frame, band } = layout;
  return (
    <PlotFrame
      x={layout.x}
      y={layout.y}
      layout={frame}
      said={saidOf(data)}
      defs={
        <>
          <pattern
            id={`${id}-scatter`}
            width="6"
            height="6"
            patternUnits="userSpaceOnUse"
            patternTransform="rotate(45)"
          >
            <path className={classes['hatch']} d="M0 0V6" />
          </pattern>
          <pattern id={`${id}-short`} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
            <path className={classes['hatchShort']} d="M0 0V5" />
          </pattern>
        </>
      }
    >
      <rect
        className={classes['band']}
        x={band.fromPx}
        y={frame.topPx}
        width={band.widthPx}
        height={frame.bottomPx - frame.topPx}
        data-plot="band"
      />
      <path
        className={classes['area']}
        d={layout.scatter}
        style={{ fill: `url(#${id}-scatter)` }}
        data-plot="scatter"
      />
      {layout.short.map((d) => (
        <path key={d} className={classes['short']} d={d} style={{ fill: `url(#${id}-short)` }} data-plot="short" />
      ))}
      <path className={classes['edge']} d={layout.least} />
      <path className={classes['edge']} d={layout.greatest} />
      <path className={classes['nominal']} d={layout.nominal} data-plot="nominal" />
      <path
        className={classes['edge']}
        d={`M${band.fromPx} ${frame.topPx}V${frame.bottomPx}M${band.fromPx + band.widthPx} ${frame.topPx}V${frame.bottomPx}`}
      />
      <LimitLines limits={layout.limits} layout={frame} />
    </PlotFrame>
  );
}

const rowsMost = 12;

/** The curve's own points with the band's ends, in every unit shown. */
function preloadTable({ curve, torqueUnits, forceUnits, limits }: PreloadPlotData): PlotTable {
  const torque = (nm: number): string =>
    torqueUnits.map((unit) => `${showNumber(convertValue(nm, 'N·m', unit))} ${unit}`).join(' · ');
  const force = (n: number): string =>
    forceUnits.map((unit) => `${showNumber(convertValue(n, 'N', unit))} ${unit}`).join(' · ');
  return {
    heads: ['Seating torque', 'Least preload', 'Nominal preload', 'Greatest preload'],
    rows: [
      ...curve
        .slice(-rowsMost)
        .map((at) => [torque(at.torqueNm), force(at.leastN), force(at.nominalN), force(at.greatestN)]),
      ...limits.map(({ name, preloadN, source }) => [`${name} (${source})`, '', force(preloadN), '']),
    ],
  };
}

function saidOf({ curve, band, limits, torqueUnits, forceUnits }: PreloadPlotData): string {
  const torque = (nm: number): string => showNumber(convertValue(nm, 'N·m', torqueUnits[0]));
  const force = (n: number): string => `${showNumber(convertValue(n, 'N', forceUnits[0]))} ${forceUnits[0]}`;
  const first = curve.find(({ torqueNm }) => torqueNm >= band.minNm * (1 - 1e-9)) ?? curve.at(-1);
  const last = curve.at(-1);
  const spread =
    first === undefined || last === undefined
      ? ''
      : ` From ${force(first.leastN)} at the least to ${force(last.greatestN)} at the most.`;
  const named = limits.map(({ name, preloadN }) => `${name} ${force(preloadN)}`).join(', ');
  return `Preload against seating torque, ${torque(band.minNm)} to ${torque(band.maxNm)} ${torqueUnits[0]}.${spread}${named === '' ? '' : ` Limits: ${named}.`}`;
}
