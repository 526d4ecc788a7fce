import type { Unit } from '../../engine/units/index.ts';
import { convertValue, showNumber } from '../../engine/units/index.ts';
import { axisUnit, frameLayout, type Axis, type PlotFrameLayout } from './axis.ts';
import type { PlotLimit } from './LimitLines.tsx';

/** What one cycle was read at; null where it was not. */
export interface CycleReading {
  cycle: number;
  runningNm: number | null;
  breakawayNm: number | null;
}

/** A fitted value and its interval at one cycle; of readings or of what is forecast. */
export interface CycleFit {
  cycle: number;
  valueNm: number;
  lowNm: number;
  highNm: number;
}

export interface CycleLimit {
  torqueNm: number;
  /** "running at most", "breakaway at least" */
  name: string;
  source: string;
  of: 'running' | 'breakaway';
}

export interface CyclePlotData {
  readings: readonly CycleReading[];
  limits: readonly CycleLimit[];
  /** The line fitted to the breakaway torque, with its interval in words; none where nothing was fitted. */
  fit?: { points: readonly CycleFit[]; method: string } | undefined;
  units: readonly [Unit, ...Unit[]];
}

export interface CyclePoint {
  px: number;
  py: number;
  of: 'running' | 'breakaway';
  /** It breaks its limit. */
  out: boolean;
}

export interface CyclePlotLayout {
  x: Axis;
  y: Axis;
  frame: PlotFrameLayout;
  points: CyclePoint[];
  joins: { of: 'running' | 'breakaway'; d: string }[];
  limits: PlotLimit[];
  fit: { line: string; interval: string } | null;
}

const heightPx = 340;

/** Whether a reading breaks the limits of its kind. */
export function isOut(torqueNm: number, of: 'running' | 'breakaway', limits: readonly CycleLimit[]): boolean {
  const slack = 1e-9;
  return limits.some(
    (limit) =>
      limit.of === of &&
      (of === 'running' ? torqueNm > limit.torqueNm * (1 + slack) : torqueNm < limit.torqueNm * (1 - slack)),
  );
}

/** Where everything of a plot of running and breakaway torque against cycles lies. */
export function cyclePlotLayout(data: CyclePlotData, widthPx: number): CyclePlotLayout {
  const { readings, limits, fit, units } = data;
  const cycles = [...readings.map(({ cycle }) => cycle), ...(fit?.points ?? []).map(({ cycle }) => cycle)];
  const torques = [
    ...readings.flatMap(({ runningNm, breakawayNm }) => [runningNm, breakawayNm]),
    ...limits.map(({ torqueNm }) => torqueNm),
    ...(fit?.points ?? []).flatMap(({ lowNm, highNm }) => [lowNm, highNm]),
  ].filter((value) => value !== null);
  const lastCycle = Math.max(1, ...cycles);
  const x: Axis = { quantity: 'cycle', units: [{ unit: '', per: 1 }], from: 0, to: lastCycle + 0.5 };
  const y: Axis = {
    quantity: 'torque',
    units: [axisUnit('N·m', units[0]), ...units.slice(1).map((unit) => axisUnit('N·m', unit))],
    from: Math.min(0, ...torques) * 1.1,
    to: Math.max(1e-9, ...torques) * 1.15,
  };
  const frame = frameLayout(x, y, widthPx, heightPx);
  // Cycles are counted: no tick stands between two, and none before the first.
  frame.xTicks = frame.xTicks.map((ticks) =>
    ticks.flatMap(({ value }) => (Number.isInteger(value) && value >= 1 ? [{ value, text: String(value) }] : [])),
  );
  const pointsOf = (of: 'running' | 'breakaway'): CyclePoint[] =>
    readings.flatMap((reading) => {
      const torqueNm = of === 'running' ? reading.runningNm : reading.breakawayNm;
      if (torqueNm === null) return [];
      return [{ px: frame.x(reading.cycle), py: frame.y(torqueNm), of, out: isOut(torqueNm, of, limits) }];
    });
  const [running, breakaway] = [pointsOf('running'), pointsOf('breakaway')];
  return {
    ...{ x, y, frame },
    points: [...running, ...breakaway],
    joins: [
      { of: 'running', d: path(running.map(({ px, py }) => [px, py])) },
      { of: 'breakaway', d: path(breakaway.map(({ px, py }) => [px, py])) },
    ],
    limits: limits.map(({ torqueNm, name, source, of }) => ({
      value: torqueNm,
      text: `${name} ${showNumber(convertValue(torqueNm, 'N·m', units[0]))} ${units[0]} (${source})`,
      line: of === 'running' ? 'proof' : 'limit',
    })),
    fit:
      fit === undefined || fit.points.length === 0
        ? null
        : {
            line: path(fit.points.map(({ cycle, valueNm }) => [frame.x(cycle), frame.y(valueNm)])),
            interval: `${path([
              ...fit.points.map(({ cycle, highNm }): [number, number] => [frame.x(cycle), frame.y(highNm)]),
              ...fit.points.toReversed().map(({ cycle, lowNm }): [number, number] => [frame.x(cycle), frame.y(lowNm)]),
            ])}Z`,
          },
  };
}

const round = (px: number): number => Math.round(px * 10) / 10;

function path(points: readonly [number, number][]): string {
  return points.map(([px, py], index) => `${index === 0 ? 'M' : 'L'}${round(px)} ${round(py)}`).join('');
}
