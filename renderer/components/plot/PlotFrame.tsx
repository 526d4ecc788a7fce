import type { ReactNode } from 'react';
import { AxisBottom, AxisLeft, AxisRight, AxisTop } from '@visx/axis';
import { Group } from '@visx/group';
import { scaleLinear } from '@visx/scale';
import { axisTitle, type Axis, type PlotFrameLayout } from './axis.ts';
import type { AxisTick } from './ticks.ts';
import classes from './Plot.module.css';

export interface PlotFrameProps {
  x: Axis;
  y: Axis;
  layout: PlotFrameLayout;
  /** What the drawing shows, for those who cannot see it. */
  said: string;
  /** Patterns that the curves are filled with. */
  defs?: ReactNode;
  children: ReactNode;
}

interface Edge {
  ticks: readonly AxisTick[];
  scale: ReturnType<typeof scaleLinear<number>>;
}

interface TickTextProps {
  x: number;
  y: number;
  formattedValue?: string | undefined;
}

function TickText({ x, y, formattedValue }: TickTextProps) {
  return (
    <text className={classes['tick']} x={x} y={y}>
      {formattedValue}
    </text>
  );
}

/** The field of a plot: grid, both scales of each axis, and their names with their units. */
export function PlotFrame({ x, y, layout, said, defs, children }: PlotFrameProps) {
  const { widthPx, heightPx, leftPx, rightPx, topPx, bottomPx } = layout;
  const edges = (axis: Axis, ticks: readonly AxisTick[][], range: [number, number]): Edge[] =>
    axis.units.map(({ per }, index) => ({
      ticks: ticks[index] ?? [],
      scale: scaleLinear<number>({ domain: [axis.from * per, axis.to * per], range }),
    }));
  const [below, above] = edges(x, layout.xTicks, [leftPx, rightPx]);
  const [left, right] = edges(y, layout.yTicks, [bottomPx, topPx]);
  const ticksOf = ({ ticks, scale }: Edge) => ({
    scale,
    tickValues: ticks.map(({ value }) => value),
    tickFormat: (value: { valueOf(): number }) => ticks.find((tick) => tick.value === value.valueOf())?.text ?? '',
    axisLineClassName: classes['axis'] ?? '',
    tickLength: 5,
    tickComponent: TickText,
  });
  const [xFirst, xSecond] = x.units;
  const [yFirst, ySecond] = y.units;
  return (
    <svg
      width={widthPx}
      height={heightPx}
      viewBox={`0 0 ${widthPx} ${heightPx}`}
      role="img"
      aria-label={said}
      className={classes['drawing']}
    >
      {defs === undefined ? null : <defs>{defs}</defs>}
      <rect className={classes['field']} x={leftPx} y={topPx} width={rightPx - leftPx} height={bottomPx - topPx} />
      <g className={classes['grid']}>
        {below?.ticks.map(({ value, text }) => (
          <path key={text} d={`M${below.scale(value)} ${topPx}V${bottomPx}`} />
        ))}
        {left?.ticks.map(({ value, text }) => (
          <path key={text} d={`M${leftPx} ${left.scale(value)}H${rightPx}`} />
        ))}
      </g>
      {children}
      {below === undefined ? null : (
        <Group className={classes['below'] ?? ''}>
          <AxisBottom top={bottomPx} {...ticksOf(below)} />
        </Group>
      )}
      {above === undefined ? null : (
        <Group className={classes['above'] ?? ''}>
          <AxisTop top={topPx} {...ticksOf(above)} />
        </Group>
      )}
      {left === undefined ? null : (
        <Group className={classes['left'] ?? ''}>
          <AxisLeft left={leftPx} {...ticksOf(left)} />
        </Group>
      )}
      {right === undefined ? null : (
        <Group className={classes['right'] ?? ''}>
          <AxisRight left={rightPx} {...ticksOf(right)} />
        </Group>
      )}
      <text className={classes['name']} x={rightPx} y={heightPx - 6} textAnchor="end">
        {axisTitle(x.quantity, xFirst.unit)}
      </text>
      {xSecond === undefined ? null : (
        <text className={classes['name']} x={(leftPx + rightPx) / 2} y={12} textAnchor="middle">
          {axisTitle(x.quantity, xSecond.unit)}
        </text>
      )}
      <text className={classes['name']} x={2} y={12}>
        {axisTitle(y.quantity, yFirst.unit)}
      </text>
      {ySecond === undefined ? null : (
        <text className={classes['name']} x={widthPx - 2} y={12} textAnchor="end">
          {axisTitle(y.quantity, ySecond.unit)}
        </text>
      )}
    </svg>
  );
}
