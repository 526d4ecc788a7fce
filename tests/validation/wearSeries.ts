/** Simulated wear of locking torque by laws that the forecast does not fit, from a seed. */
import { drawsOf } from '../../renderer/engine/chance/draws.ts';
import { fittedPolynomial, fittedValue, leverage } from '../../renderer/engine/chance/leastSquares.ts';
import { studentDeviate } from '../../renderer/engine/chance/studentT.ts';
import { nextBreakaway } from '../../renderer/engine/asrun/nextBreakaway.ts';
import { passingCycle } from '../../renderer/engine/asrun/passingCycle.ts';

type Uniform = (least: number, most: number) => number;
type Curve = (cycle: number) => number;

/** Torque as a share of the first, without scatter. Only the last two are of a kind that the forecast fits. */
export const decayLaws = {
  'exponential towards a floor': (uniform: Uniform): Curve => {
    const [floor, rate] = [uniform(0, 0.7), uniform(0.03, 0.4)];
    return (cycle) => floor + (1 - floor) * Math.exp(-rate * (cycle - 1));
  },
  'power of the cycle': (uniform: Uniform): Curve => {
    const power = uniform(0.1, 0.8);
    return (cycle) => cycle ** -power;
  },
  'hyperbola towards a floor': (uniform: Uniform): Curve => {
    const [floor, rate] = [uniform(0, 0.7), uniform(0.05, 0.6)];
    return (cycle) => floor + (1 - floor) / (1 + rate * (cycle - 1));
  },
  'stretched exponential': (uniform: Uniform): Curve => {
    const [power, span] = [uniform(0.4, 0.9), uniform(3, 30)];
    return (cycle) => Math.exp(-(((cycle - 1) / span) ** power));
  },
  'logarithm of the cycle': (uniform: Uniform): Curve => {
    const slope = uniform(0.05, 0.3);
    return (cycle) => Math.max(1 - slope * Math.log(cycle), 1e-9);
  },
  'wear that speeds up': (uniform: Uniform): Curve => {
    const [rate, power] = [uniform(0.02, 0.06), uniform(1.2, 2.5)];
    return (cycle) => Math.max(1 - 3 * (rate * (cycle - 1)) ** power, 1e-9);
  },
  'straight line': (uniform: Uniform): Curve => {
    const slope = uniform(0.01, 0.08);
    return (cycle) => Math.max(1 - slope * (cycle - 1), 1e-9);
  },
  'plain exponential': (uniform: Uniform): Curve => {
    const rate = uniform(0.03, 0.3);
    return (cycle) => Math.exp(-rate * (cycle - 1));
  },
} as const;

export type DecayLaw = keyof typeof decayLaws;

/** Cycles looked at for the true passing; beyond it counts as never. */
const cyclesMost = 2000;

interface SimulatedSeries {
  readings: { cycle: number; breakawayNm: number }[];
  minimumNm: number;
  /** First cycle at which the curve lies under the minimum; infinite where it never does. */
  passes: number;
  /** First cycle after the readings at which a reading would be under it. */
  firstReadingUnder: number;
  nextReadingNm: number;
}

/** 4 to 15 readings with a scatter of 1 to 8 % in proportion, none of them nor the curve under the minimum yet. */
function simulated(law: DecayLaw, count: number, seed: number): SimulatedSeries[] {
  const { uniform: share, normal } = drawsOf(seed);
  const uniform: Uniform = (least, most) => least + (most - least) * share();
  const found: SimulatedSeries[] = [];
  while (found.length < count) {
    const curve = decayLaws[law](uniform);
    const length = Math.floor(uniform(4, 16));
    const scatter = uniform(0.01, 0.08);
    const minimumNm = uniform(0.2, 0.9);
    const reading = (cycle: number): number => curve(cycle) * Math.exp(scatter * normal());
    const readings = Array.from({ length }, (_, n) => ({ cycle: n + 1, breakawayNm: reading(n + 1) }));
    if (curve(length) < minimumNm || readings.some(({ breakawayNm }) => breakawayNm < minimumNm)) continue;
    const later = Array.from({ length: cyclesMost }, (_, n) => length + 1 + n);
    const readLater = later.map((cycle) => ({ cycle, torqueNm: reading(cycle) }));
    found.push({
      readings,
      minimumNm,
      passes: later.find((cycle) => curve(cycle) < minimumNm) ?? Number.POSITIVE_INFINITY,
      firstReadingUnder: readLater.find(({ torqueNm }) => torqueNm < minimumNm)?.cycle ?? Number.POSITIVE_INFINITY,
      nextReadingNm: readLater[0]?.torqueNm ?? Number.NaN,
    });
  }
  return found;
}

export interface Coverage {
  law: DecayLaw;
  series: number;
  /** Answers with both ends, and how many of them hold the true cycle, and the first reading under the minimum. */
  between: number;
  betweenHold: number;
  betweenHoldReading: number;
  /** Answers with a first end alone. */
  notBefore: number;
  notBeforeHold: number;
  cannotKnow: number;
  /** Cycles an answer with both ends spans, on average. */
  meanSpan: number;
  /** How often the interval of the straight line held the next reading, where it said nothing of a bend; and how many such there were. */
  nextStated: number;
  nextHold: number;
}

/** What the forecast says of simulated series, counted. */
export function coverageOf(law: DecayLaw, count: number, seed: number): Coverage {
  const said = simulated(law, count, seed).map((one) => ({
    ...one,
    answer: passingCycle(one.readings, () => one.minimumNm),
    next: nextBreakaway(one.readings),
  }));
  const between = said.filter(({ answer }) => answer.status === 'between');
  const notBefore = said.filter(({ answer }) => answer.status === 'not-before');
  const stated = said.filter(({ next }) => next?.straight === true);
  const holds = (cycle: number, answer: { fromCycle: number | null; toCycle: number | null }): boolean =>
    cycle >= (answer.fromCycle ?? Number.NaN) && cycle <= (answer.toCycle ?? Number.POSITIVE_INFINITY);
  return {
    law,
    series: said.length,
    between: between.length,
    betweenHold: between.filter(({ passes, answer }) => holds(passes, answer)).length,
    betweenHoldReading: between.filter(({ firstReadingUnder, answer }) => holds(firstReadingUnder, answer)).length,
    notBefore: notBefore.length,
    notBeforeHold: notBefore.filter(({ passes, answer }) => holds(passes, answer)).length,
    cannotKnow: said.filter(({ answer }) => answer.status === 'cannot-know').length,
    meanSpan:
      between.reduce((sum, { answer }) => sum + (answer.toCycle ?? 0) - (answer.fromCycle ?? 0) + 1, 0) /
      Math.max(between.length, 1),
    nextStated: stated.length,
    nextHold: stated.filter(
      ({ next, nextReadingNm }) =>
        next !== null && nextReadingNm >= next.intervalNm.min && nextReadingNm <= next.intervalNm.max,
    ).length,
  };
}

/**
 * What an interval would be worth that trusts a straight line through ln(torque): its 95 % band drawn out until it has passed under the
 * minimum, for as many cycles as lie behind. How many series it gives both ends for, and how many of them hold.
 */
export function straightCoverageOf(law: DecayLaw, count: number, seed: number): { stated: number; hold: number } {
  let [stated, hold] = [0, 0];
  for (const { readings, minimumNm, passes } of simulated(law, count, seed)) {
    const line = fittedPolynomial(
      readings.map(({ cycle }) => cycle),
      readings.map(({ breakawayNm }) => Math.log(breakawayNm)),
      1,
    );
    const scatter = Math.sqrt(line.residualSquares / line.degreesOfFreedom);
    const half = (cycle: number): number =>
      studentDeviate(0.95, line.degreesOfFreedom) * scatter * Math.sqrt(leverage(line, cycle));
    const ahead = readings.map((_, n) => readings.length + 1 + n);
    const limit = Math.log(minimumNm);
    const from = ahead.find((cycle) => fittedValue(line, cycle) - half(cycle) < limit);
    const to = ahead.find((cycle) => fittedValue(line, cycle) + half(cycle) < limit);
    if (from === undefined || to === undefined) continue;
    stated += 1;
    if (passes >= from && passes <= to) hold += 1;
  }
  return { stated, hold };
}
