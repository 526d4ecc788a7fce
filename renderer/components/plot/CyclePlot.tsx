import { useId } from 'react';
import { convertValue, showNumber } from '../../engine/units/index.ts';
import { cyclePlotLayout, isOut, type CyclePlotData, type CyclePoint } from './cyclePlotLayout.ts';
import { LimitLines } from './LimitLines.tsx';
import { PlotFigure, Sample, type PlotAbout, type PlotTable } from './PlotFigure.tsx';
import { PlotFrame } from './PlotFrame.tsx';
import classes from './Plot.module.css';

export type CyclePlotProps = CyclePlotData & PlotAbout;

/** Running and breakaway torque against cycles: the readings, their limits, and a fit where one was made. */
export function CyclePlot(props: CyclePlotProps) {
  const { fit } = props;
  const id = useId();
  return (
    <PlotFigure
      {...props}
      {...(fit === undefined ? {} : { source: `${props.source} Fit: ${fit.method}` })}
      table={cycleTable(props)}
      legend={`Full square: running. Hollow circle: breakaway. Crossed out: beyond its limit.${fit === undefined ? '' : ' Dotted: fit, hatched its interval.'}`}
      samples={
        <>
          <Sample words="running">
            <Point px={16} py={6} of="running" out={false} />
          </Sample>
          <Sample words="breakaway">
            <Point px={16} py={6} of="breakaway" out={false} />
          </Sample>
          {fit === undefined ? null : (
            <Sample words="fit and its interval">
              <rect className={classes['area']} style={{ fill: `url(#${id}-fit)` }} width="32" height="12" />
              <path className={classes['fit']} d="M1 6H31" />
            </Sample>
          )}
        </>
      }
    >
      {(widthPx) => <Drawing {...props} widthPx={widthPx} id={id} />}
    </PlotFigure>
  );
}

function Drawing({ widthPx, id, ...data }: CyclePlotProps & { widthPx: number; id: string }) {
  const layout = cyclePlotLayout(data, widthPx);
  return (
    <PlotFrame
      x={layout.x}
      y={layout.y}
      layout={layout.frame}
      said={saidOf(data)}
      defs={
        <pattern id={`${id}-fit`} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path className={classes['hatch']} d="M0 0V6" />
        </pattern>
      }
    >
      {layout.fit === null ? null : (
        <>
          <path
            className={classes['area']}
            d={layout.fit.interval}
            style={{ fill: `url(#${id}-fit)` }}
            data-plot="interval"
          />
          <path className={classes['fit']} d={layout.fit.line} data-plot="fit" />
        </>
      )}
      <LimitLines limits={layout.limits} layout={layout.frame} />
      {layout.joins.map(({ of, d }) => (d === '' ? null : <path key={of} className={classes['join']} d={d} />))}
      {layout.points.map((point) => (
        <Point key={`${point.of} ${point.px}`} {...point} />
      ))}
    </PlotFrame>
  );
}

/** Running is a full square, breakaway a hollow circle; one beyond its limit is crossed out. */
function Point({ px, py, of, out }: CyclePoint) {
  return (
    <g data-plot={of} data-out={out || undefined}>
      {of === 'running' ? (
        <rect className={classes['pointFull']} x={px - 4} y={py - 4} width="8" height="8" />
      ) : (
        <circle className={classes['pointHollow']} cx={px} cy={py} r="4.5" />
      )}
      {out ? (
        <path
          className={classes['hatchShort']}
          d={`M${px - 8} ${py - 8}L${px + 8} ${py + 8}M${px + 8} ${py - 8}L${px - 8} ${py + 8}`}
        />
      ) : null}
    </g>
  );
}

/** Every reading with what it says of its limits. */
function cycleTable({ readings, limits, fit, units }: CyclePlotData): PlotTable {
  const torque = (nm: number): string =>
    units.map((unit) => `${showNumber(convertValue(nm, 'N·m', unit))} ${unit}`).join(' · ');
  const read = (nm: number | null, of: 'running' | 'breakaway'): string =>
    nm === null ? 'not read' : `${torque(nm)}${isOut(nm, of, limits) ? ', beyond its limit' : ''}`;
  return {
    heads: ['Cycle', 'Running', 'Breakaway', ...(fit === undefined ? [] : ['Fit', 'Interval'])],
    rows: [
      ...readings.map(({ cycle, runningNm, breakawayNm }) => {
        const fitted = fit?.points.find((point) => point.cycle === cycle);
        return [
          String(cycle),
          read(runningNm, 'running'),
          read(breakawayNm, 'breakaway'),
          ...(fit === undefined ? [] : fittedTexts(fitted, torque)),
        ];
      }),
      ...(fit?.points ?? [])
        .filter(({ cycle }) => !readings.some((reading) => reading.cycle === cycle))
        .map((point) => [String(point.cycle), 'not read', 'not read', ...fittedTexts(point, torque)]),
      ...limits.map(({ name, torqueNm, source, of }) => [
        `${name} (${source})`,
        of === 'running' ? torque(torqueNm) : '',
        of === 'breakaway' ? torque(torqueNm) : '',
        ...(fit === undefined ? [] : ['', '']),
      ]),
    ],
  };
}

function fittedTexts(
  point: { valueNm: number; lowNm: number; highNm: number } | undefined,
  torque: (nm: number) => string,
): string[] {
  return point === undefined ? ['', ''] : [torque(point.valueNm), `${torque(point.lowNm)} to ${torque(point.highNm)}`];
}

function saidOf({ readings, limits, units }: CyclePlotData): string {
  const torque = (nm: number): string => `${showNumber(convertValue(nm, 'N·m', units[0]))} ${units[0]}`;
  const out = readings.filter(
    ({ runningNm, breakawayNm }) =>
      (runningNm !== null && isOut(runningNm, 'running', limits)) ||
      (breakawayNm !== null && isOut(breakawayNm, 'breakaway', limits)),
  );
  const named = limits.map(({ name, torqueNm }) => `${name} ${torque(torqueNm)}`).join(', ');
  const beyond =
    out.length === 0 ? 'None is beyond a limit.' : `Beyond a limit: cycle ${out.map(({ cycle }) => cycle).join(', ')}.`;
  return `Running and breakaway torque of ${readings.length} cycles.${named === '' ? '' : ` Limits: ${named}. ${beyond}`}`;
}
