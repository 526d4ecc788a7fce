import { convertValue, showNumber } from '../../engine/units/index.ts';
import type { Unit } from '../../engine/units/index.ts';
import { axisUnit, frameLayout, type Axis } from './axis.ts';
import { PlotFigure, type PlotAbout, type PlotTable } from './PlotFigure.tsx';
import { PlotFrame } from './PlotFrame.tsx';
import classes from './Plot.module.css';

export interface SeatingPlotData {
  readings: readonly { cycle: number; torqueNm: number }[];
  /** What the callout asks for. */
  band: { min: number; max: number };
  /** "seating torque" or "final torque": which of the two the callout's band is of. */
  of: string;
  units: readonly [Unit, ...Unit[]];
}

export type SeatingPlotProps = SeatingPlotData & PlotAbout;

const heightPx = 240;
const slack = 1e-9;

function isOutside(nm: number, { min, max }: SeatingPlotData['band']): boolean {
  return nm < min * (1 - slack) || nm > max * (1 + slack);
}

/** What seats a fastener, cycle by cycle, against the band of its callout. */
export function SeatingPlot(props: SeatingPlotProps) {
  return (
    <PlotFigure {...props} table={seatingTable(props)}>
      {(widthPx) => <Drawing {...props} widthPx={widthPx} />}
    </PlotFigure>
  );
}

function Drawing({ readings, band, of, units, widthPx }: SeatingPlotData & { widthPx: number }) {
  const [unit] = units;
  const shown = (nm: number): string => `${showNumber(convertValue(nm, 'N·m', unit))} ${unit}`;
  const torques = [...readings.map(({ torqueNm }) => torqueNm), band.min, band.max];
  const [low, high] = [Math.min(...torques), Math.max(...torques)];
  const room = Math.max(high - low, high * 0.05) * 0.3;
  const x: Axis = {
    quantity: 'cycle',
    units: [{ unit: '', per: 1 }],
    from: 0,
    to: Math.max(1, ...readings.map(({ cycle }) => cycle)) + 0.5,
  };
  const y: Axis = {
    quantity: of,
    units: [axisUnit('N·m', unit), ...units.slice(1).map((other) => axisUnit('N·m', other))],
    from: Math.max(0, low - room),
    to: high + room,
  };
  const frame = frameLayout(x, y, widthPx, heightPx);
  frame.xTicks = frame.xTicks.map((ticks) => ticks.filter(({ value }) => Number.isInteger(value) && value >= 1));
  const [top, bottom] = [frame.y(band.max), frame.y(band.min)];
  const outside = readings.filter(({ torqueNm }) => isOutside(torqueNm, band));
  const path = readings.map(
    ({ cycle, torqueNm }, at) =>
      `${at === 0 ? 'M' : 'L'}${Math.round(frame.x(cycle))} ${Math.round(frame.y(torqueNm) * 10) / 10}`,
  );
  return (
    <PlotFrame
      x={x}
      y={y}
      layout={frame}
      said={`${of} of ${readings.length} cycles against the callout, ${shown(band.min)} to ${shown(band.max)}. ${outside.length === 0 ? 'All lie inside.' : `Outside: cycle ${outside.map(({ cycle }) => cycle).join(', ')}.`}`}
    >
      <rect
        className={classes['band']}
        x={frame.leftPx}
        y={top}
        width={frame.rightPx - frame.leftPx}
        height={Math.max(1, bottom - top)}
      />
      {[
        { nm: band.max, at: top, text: 'greatest', dy: -5 },
        { nm: band.min, at: bottom, text: 'least', dy: 15 },
      ].map(({ nm, at, text, dy }) => (
        <g key={text} data-plot="limit">
          <path className={classes['limit']} d={`M${frame.leftPx} ${at}H${frame.rightPx}`} />
          <text className={classes['label']} x={frame.leftPx + 8} y={at + dy}>
            {`${text} ${shown(nm)} (callout)`}
          </text>
        </g>
      ))}
      <path className={classes['join']} d={path.join('')} />
      {readings.map(({ cycle, torqueNm }) => {
        const [px, py] = [frame.x(cycle), frame.y(torqueNm)];
        return (
          <g key={cycle} data-plot="seating" data-out={isOutside(torqueNm, band) || undefined}>
            <rect className={classes['pointFull']} x={px - 4} y={py - 4} width="8" height="8" />
            {isOutside(torqueNm, band) ? (
              <path
                className={classes['hatchShort']}
                d={`M${px - 8} ${py - 8}L${px + 8} ${py + 8}M${px + 8} ${py - 8}L${px - 8} ${py + 8}`}
              />
            ) : null}
          </g>
        );
      })}
    </PlotFrame>
  );
}

function seatingTable({ readings, band, of, units }: SeatingPlotData): PlotTable {
  const torque = (nm: number): string =>
    units.map((unit) => `${showNumber(convertValue(nm, 'N·m', unit))} ${unit}`).join(' · ');
  return {
    heads: ['Cycle', of, 'Callout'],
    rows: readings.map(({ cycle, torqueNm }) => [
      String(cycle),
      torque(torqueNm),
      isOutside(torqueNm, band) ? `outside ${torque(band.min)} to ${torque(band.max)}` : 'inside',
    ]),
  };
}
