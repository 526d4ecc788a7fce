import type { Unit } from '../../engine/units/index.ts';
import { convertValue } from '../../engine/units/index.ts';
import { textWidthPx } from '../StackDrawing/labels.ts';
import { roundTicks, type AxisTick } from './ticks.ts';

/** One scale of an axis: its unit, and how many of it one of the data's own unit is. */
export interface AxisUnit {
  unit: string;
  per: number;
}

/** What runs along an edge of a plot; `from` and `to` in the data's own unit. */
export interface Axis {
  /** "preload", "cycle" */
  quantity: string;
  /** The first stands below or left, the other one above or right. */
  units: readonly [AxisUnit, ...AxisUnit[]];
  from: number;
  to: number;
}

export interface PlotFrameLayout {
  widthPx: number;
  heightPx: number;
  leftPx: number;
  rightPx: number;
  topPx: number;
  bottomPx: number;
  x: (value: number) => number;
  y: (value: number) => number;
  xTicks: AxisTick[][];
  yTicks: AxisTick[][];
}

/** A unit of the engine as a scale of an axis. */
export function axisUnit(base: Unit, unit: Unit): AxisUnit {
  return { unit, per: convertValue(1, base, unit) };
}

const tickSizePx = 12;

/** "torque / N·m"; a count has no unit. */
export function axisTitle(quantity: string, unit: string): string {
  return unit === '' ? quantity : `${quantity} / ${unit}`;
}

/** Room for the ticks and names of both scales around the field that holds the curves. */
export function frameLayout(x: Axis, y: Axis, widthPx: number, heightPx: number): PlotFrameLayout {
  const topPx = x.units.length > 1 ? 42 : 26;
  const bottomPx = heightPx - 42;
  const yTicks = y.units.map(({ per }) => roundTicks(y.from * per, y.to * per, 7));
  const widest = (ticks: readonly AxisTick[] = []): number =>
    Math.max(0, ...ticks.map(({ text }) => textWidthPx(text, tickSizePx)));
  const leftPx = Math.ceil(widest(yTicks[0])) + 16;
  const rightPx = widthPx - (y.units.length > 1 ? Math.ceil(widest(yTicks[1])) + 16 : 16);
  const most = Math.max(3, Math.min(9, Math.floor((rightPx - leftPx) / 64)));
  return {
    ...{ widthPx, heightPx, leftPx, rightPx, topPx, bottomPx, yTicks },
    xTicks: x.units.map(({ per }) => roundTicks(x.from * per, x.to * per, most)),
    x: (value) => leftPx + ((value - x.from) / (x.to - x.from)) * (rightPx - leftPx),
    y: (value) => bottomPx - ((value - y.from) / (y.to - y.from)) * (bottomPx - topPx),
  };
}
