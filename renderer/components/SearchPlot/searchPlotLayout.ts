import type { SearchMoment } from '../../../shared-types/records/window.ts';
import { roundNominal } from '../../engine/units/index.ts';
import { textWidthPx } from '../StackDrawing/labels.ts';

/** A value of the search in the unit of an axis. */
export interface PlotScale {
  unit: string;
  /** From the unit of the moments. */
  of: (value: number) => number;
}

export interface Tick {
  px: number;
  text: string;
}

/** One outing's search: two stepped lines and what lies between them. */
export interface PlotRun {
  outing: string;
  fromPx: number;
  toPx: number;
  best: string | null;
  bound: string | null;
  gap: string | null;
}

export interface SearchPlotLayout {
  widthPx: number;
  heightPx: number;
  leftPx: number;
  rightPx: number;
  topPx: number;
  bottomPx: number;
  runs: PlotRun[];
  seconds: Tick[];
  left: Tick[];
  /** Of the other unit, where two are shown. */
  right: Tick[];
}

const heightPx = 190;
const topPx = 26;
const belowPx = 40;
const ticksWanted = 5;

/**
 * Best answer and bound over time as stepped lines: what was known stays known until something better is.
 *
 * @param untilS - how far the time axis goes; a running search's clock
 */
export function searchPlotLayout(input: {
  moments: readonly SearchMoment[];
  untilS: number;
  widthPx: number;
  scales: readonly [PlotScale, ...PlotScale[]];
}): SearchPlotLayout {
  const { moments, untilS, widthPx, scales } = input;
  const [first, second] = scales;
  const values = moments.flatMap(({ best, bound }) => [best, bound]).filter((value) => value !== null);
  const { low, high } = rangeOf(values);
  const endS = Math.max(untilS, moments.at(-1)?.atS ?? 0, 0.001);
  const texts = ticksBetween(first.of(low), first.of(high)).map(({ text }) => text);
  const others = second === undefined ? [] : ticksBetween(second.of(low), second.of(high)).map(({ text }) => text);
  const leftPx = Math.ceil(widest(texts)) + 14;
  const rightPx = widthPx - (others.length === 0 ? 14 : Math.ceil(widest(others)) + 14);
  const bottomPx = heightPx - belowPx;
  const x = (s: number): number => leftPx + (s / endS) * (rightPx - leftPx);
  const y = (value: number): number => bottomPx - ((value - low) / (high - low)) * (bottomPx - topPx);
  const axis = (scale: PlotScale): Tick[] => {
    const [from, to] = [scale.of(low), scale.of(high)];
    return ticksBetween(from, to).map(({ value, text }) => ({
      text,
      px: bottomPx - ((value - from) / (to - from)) * (bottomPx - topPx),
    }));
  };
  return {
    ...{ widthPx, heightPx, leftPx, rightPx, topPx, bottomPx },
    runs: runsOf(moments, endS).map(({ outing, own, toS }) => ({
      outing,
      fromPx: x(own[0]?.atS ?? 0),
      toPx: x(toS),
      ...curves(own, toS, { x, y }),
    })),
    seconds: ticksBetween(0, endS).map(({ value, text }) => ({ px: x(value), text })),
    left: axis(first),
    right: second === undefined ? [] : axis(second),
  };
}

const widest = (texts: readonly string[]): number => Math.max(0, ...texts.map((text) => textWidthPx(text, 12)));

/** A little room above and below; never from a value to itself. */
function rangeOf(values: readonly number[]): { low: number; high: number } {
  if (values.length === 0) return { low: 0, high: 1 };
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const room = most > least ? (most - least) * 0.08 : Math.max(Math.abs(most) * 0.1, 0.5);
  return { low: Math.max(0, least - room), high: most + room };
}

function runsOf(
  moments: readonly SearchMoment[],
  endS: number,
): { outing: string; own: SearchMoment[]; toS: number }[] {
  const runs: { outing: string; own: SearchMoment[]; toS: number }[] = [];
  for (const moment of moments) {
    const last = runs.at(-1);
    if (last?.outing === moment.outing) last.own.push(moment);
    else {
      if (last !== undefined) last.toS = moment.atS;
      runs.push({ outing: moment.outing, own: [moment], toS: endS });
    }
  }
  return runs;
}

function curves(
  own: readonly SearchMoment[],
  toS: number,
  { x, y }: { x: (s: number) => number; y: (value: number) => number },
): Pick<PlotRun, 'best' | 'bound' | 'gap'> {
  const corners = (of: 'best' | 'bound'): [number, number][] =>
    own.flatMap((moment, index): [number, number][] => {
      const value = moment[of];
      if (value === null) return [];
      const until = own[index + 1]?.atS ?? toS;
      return [
        [x(moment.atS), y(value)],
        [x(until), y(value)],
      ];
    });
  const line = (points: readonly [number, number][]): string | null =>
    points.length === 0
      ? null
      : points.map(([px, py], i) => `${i === 0 ? 'M' : 'L'}${round(px)} ${round(py)}`).join('');
  const both = own.filter(({ best, bound }) => best !== null && bound !== null);
  const bestOfBoth = both.length === 0 ? [] : corners('best').filter(([px]) => px >= x(both[0]?.atS ?? 0) - 0.01);
  const boundOfBoth = both.length === 0 ? [] : corners('bound').filter(([px]) => px >= x(both[0]?.atS ?? 0) - 0.01);
  const gap = line([...bestOfBoth, ...boundOfBoth.toReversed()]);
  return { best: line(corners('best')), bound: line(corners('bound')), gap: gap === null ? null : `${gap}Z` };
}

const round = (px: number): number => Math.round(px * 10) / 10;

/** About five round values, 1-2-5, within a range. */
function ticksBetween(from: number, to: number): { value: number; text: string }[] {
  const rough = (to - from) / ticksWanted;
  if (!(rough > 0)) return [];
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5, 10].find((one) => one * power >= rough) ?? 10) * power;
  const digits = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => {
    const value = (first + index) * step;
    return { value, text: roundNominal(value, digits) };
  });
}
