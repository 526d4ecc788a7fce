import type { Unit } from '../../engine/units/index.ts';
import { convertValue, showNumber } from '../../engine/units/index.ts';
import { axisUnit, frameLayout, type Axis, type PlotFrameLayout } from './axis.ts';
import type { PlotLimit } from './LimitLines.tsx';

/** One seating torque and the preload it gives: nominal, and over everything that spreads it. */
export interface PreloadAt {
  torqueNm: number;
  leastN: number;
  nominalN: number;
  greatestN: number;
}

export interface PreloadLimit {
  preloadN: number;
  /** "proof load", "least preload asked" */
  name: string;
  /** Document, or whoever gave it. */
  source: string;
  line: PlotLimit['line'];
  /** On which side of it a preload falls short. */
  short: 'below' | 'above';
}

export interface PreloadPlotData {
  /** In order of torque; between two the preload is proportional. The curve ends with the last. */
  curve: readonly PreloadAt[];
  /** Where the seating torque lies. */
  band: { minNm: number; maxNm: number };
  limits: readonly PreloadLimit[];
  /** The unit torque and preload were written in stands first. */
  torqueUnits: readonly [Unit, ...Unit[]];
  forceUnits: readonly [Unit, ...Unit[]];
}

export interface PreloadPlotLayout {
  x: Axis;
  y: Axis;
  frame: PlotFrameLayout;
  nominal: string;
  least: string;
  greatest: string;
  scatter: string;
  band: { fromPx: number; widthPx: number };
  limits: PlotLimit[];
  /** Where the preload breaks a limit within the band. */
  short: string[];
}

const heightPx = 380;

/** Where everything of a plot of preload against torque lies. */
export function preloadPlotLayout(data: PreloadPlotData, widthPx: number): PreloadPlotLayout {
  const { curve, band, limits, torqueUnits, forceUnits } = data;
  const mostNm = Math.max(band.maxNm, ...curve.map(({ torqueNm }) => torqueNm));
  const mostN = Math.max(1e-9, ...curve.map(({ greatestN }) => greatestN), ...limits.map(({ preloadN }) => preloadN));
  const leastN = Math.min(0, ...curve.map((point) => point.leastN), ...limits.map(({ preloadN }) => preloadN));
  const x: Axis = {
    quantity: 'seating torque',
    units: [axisUnit('N·m', torqueUnits[0]), ...torqueUnits.slice(1).map((unit) => axisUnit('N·m', unit))],
    from: 0,
    to: mostNm * 1.08,
  };
  const y: Axis = {
    quantity: 'preload',
    units: [axisUnit('N', forceUnits[0]), ...forceUnits.slice(1).map((unit) => axisUnit('N', unit))],
    from: leastN * 1.1,
    to: mostN * 1.12,
  };
  const frame = frameLayout(x, y, widthPx, heightPx);
  const points = (of: (point: PreloadAt) => number): [number, number][] =>
    curve.map((point) => [frame.x(point.torqueNm), frame.y(of(point))]);
  const [low, high] = [points(({ leastN: n }) => n), points(({ greatestN: n }) => n)];
  const inBand = within(curve, band);
  return {
    ...{ x, y, frame },
    nominal: line(points(({ nominalN }) => nominalN)),
    least: line(low),
    greatest: line(high),
    scatter: area([...low, ...high.toReversed()]),
    band: { fromPx: frame.x(band.minNm), widthPx: Math.max(2, frame.x(band.maxNm) - frame.x(band.minNm)) },
    limits: limits.map(({ preloadN, name, source, line: style }) => ({
      value: preloadN,
      text: `${name} ${showNumber(convertValue(preloadN, 'N', forceUnits[0]))} ${forceUnits[0]} (${source})`,
      line: style,
    })),
    short: limits.flatMap((limit) => shortfall(inBand, limit, frame)),
  };
}

/** The preload at a torque between two of the curve. */
function preloadAt(curve: readonly PreloadAt[], torqueNm: number): PreloadAt | null {
  const after = curve.findIndex((point) => point.torqueNm >= torqueNm * (1 - 1e-12));
  const [to, from] = [curve[after], curve[after - 1]];
  if (to === undefined) return null;
  if (from === undefined || to.torqueNm === torqueNm) return { ...to };
  const share = (torqueNm - from.torqueNm) / (to.torqueNm - from.torqueNm);
  const mixed = (a: number, b: number): number => a + share * (b - a);
  return {
    torqueNm,
    leastN: mixed(from.leastN, to.leastN),
    nominalN: mixed(from.nominalN, to.nominalN),
    greatestN: mixed(from.greatestN, to.greatestN),
  };
}

function within(curve: readonly PreloadAt[], { minNm, maxNm }: { minNm: number; maxNm: number }): PreloadAt[] {
  const between = curve.filter(({ torqueNm }) => torqueNm > minNm && torqueNm < maxNm);
  const [first, last] = [preloadAt(curve, minNm), preloadAt(curve, maxNm)];
  return [...(first === null ? [] : [first]), ...between, ...(last === null || maxNm === minNm ? [] : [last])];
}

/** The part between a limit and the curve's own edge beyond it, of each stretch of the band. */
function shortfall(inBand: readonly PreloadAt[], limit: PreloadLimit, frame: PlotFrameLayout): string[] {
  const edge = ({ leastN, greatestN }: PreloadAt): number => (limit.short === 'below' ? leastN : greatestN);
  const beyond = (point: PreloadAt): number =>
    limit.short === 'below' ? limit.preloadN - edge(point) : edge(point) - limit.preloadN;
  const slack = 1e-9 * Math.abs(limit.preloadN);
  return inBand.slice(1).flatMap((to, index) => {
    const from = inBand[index];
    if (from === undefined) return [];
    const [a, b] = [beyond(from), beyond(to)];
    if (a <= slack && b <= slack) return [];
    const crossing = a > slack && b > slack ? null : from.torqueNm + (a / (a - b)) * (to.torqueNm - from.torqueNm);
    const [startNm, endNm] = [
      a > slack ? from.torqueNm : (crossing ?? from.torqueNm),
      b > slack ? to.torqueNm : (crossing ?? to.torqueNm),
    ];
    const edgeAt = (torqueNm: number): number => {
      const point = preloadAt(inBand, torqueNm);
      return point === null ? limit.preloadN : edge(point);
    };
    return [
      area([
        [frame.x(startNm), frame.y(limit.preloadN)],
        [frame.x(startNm), frame.y(edgeAt(startNm))],
        [frame.x(endNm), frame.y(edgeAt(endNm))],
        [frame.x(endNm), frame.y(limit.preloadN)],
      ]),
    ];
  });
}

const round = (px: number): number => Math.round(px * 10) / 10;

function line(points: readonly [number, number][]): string {
  return points.map(([px, py], index) => `${index === 0 ? 'M' : 'L'}${round(px)} ${round(py)}`).join('');
}

function area(points: readonly [number, number][]): string {
  return points.length === 0 ? '' : `${line(points)}Z`;
}
