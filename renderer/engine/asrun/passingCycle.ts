import type { PassingCycle } from '../../../shared-types/asRun.ts';
import { fittedPolynomial, fittedValue, leverage, type Fit } from '../chance/leastSquares.ts';
import { studentDeviate } from '../chance/studentT.ts';
import { atLeast } from '../tolerance.ts';
import { confidence, type WearReading } from './nextBreakaway.ts';

/** Cycles the forecast needs: a parabola and one reading more, to say how far readings scatter. */
const cyclesLeast = 4;
/** Readings are not taken to repeat nearer than this, relative: common practice, no source. */
const scatterLeast = 0.03;
/** Two-sided shares of the bands: three fits have to agree on the first end, so that each may be narrower. */
const [fromShare, toShare] = [0.8, 0.95];
/** What a fit may be off where it is drawn out past the readings, relative: common practice, no source. */
const lawAllowance = 0.05;
/** Cycles looked ahead at most, so that a slip of the pen in a cycle costs no time. */
const aheadMost = 1000;

/**
 * The cycle at which the breakaway torque of a position passes under its minimum, as an interval.
 *
 *   three fits by ordinary least squares over the cycles x: ln y = a + b·x; ln y = a + b·x + c·x²; y = a + b·x + c·x²
 *   band of each: ŷ(x) ± t(ν)·s·√(vᵀ(VᵀV)⁻¹v), s = √(Σ(y − ŷ)²/ν) but at least 3 % of the torque, t after Student, two-sided
 *   from: the first cycle at which any band, t at 0.8, reaches under the minimum
 *   to: the first by which both fits of ln y lie under it with their whole band, t at 0.95, and 5 % more
 *   looked at as many cycles ahead as lie behind
 *
 * A straight line alone is surest where it is most wrong: wear that slows down towards a floor passes later or never, wear that speeds
 * up passes sooner. Where the bent fits leave the end open there is none (`toCycle` is null), and where even the next cycle is open
 * nothing is known.
 *
 * @param readings - of one position, in the order of their cycles
 * @param minimumNmAt - the least breakaway torque at a cycle [N·m]; null where none is held
 * @returns the cycles between which the curve behind the readings first lies under the minimum, and the likeliest
 * @throws nothing
 * @source inverse prediction from a band of confidence (textbook, from memory); the union of fits, their shares and both allowances are
 *   our own (common practice, no source): the interval says 95 %, and how often it holds is counted on simulated wear in tests/validation/wearForecast.test.ts
 * @validity at least 4 cycles, readings above 0, scatter in proportion to the torque
 * @example 8 readings falling by 5 % a cycle from 2 N·m with a minimum of 1.2 N·m
 */
export function passingCycle(
  readings: readonly WearReading[],
  minimumNmAt: (cycle: number) => number | null,
): PassingCycle {
  const last = readings.at(-1)?.cycle ?? 0;
  const under = readings.find(({ cycle, breakawayNm }) => isUnder(breakawayNm, minimumNmAt(cycle)));
  if (under !== undefined) {
    const { cycle } = under;
    return told('under-already', `the reading of cycle ${cycle} is under it`, { fromCycle: cycle, toCycle: cycle });
  }
  if (minimumNmAt(last + 1) === null) return told('cannot-know', 'no minimum is held');
  const cycles = new Set(readings.map(({ cycle }) => cycle)).size;
  if (cycles < cyclesLeast) return told('cannot-know', `${cycles} of at least ${cyclesLeast} cycles have a reading`);
  if (readings.some(({ breakawayNm }) => breakawayNm <= 0)) return told('cannot-know', 'a reading is 0');
  const behind = last - (readings[0]?.cycle ?? last) + 1;
  return searched(curvesOf(readings), minimumNmAt, last, Math.min(behind, aheadMost));
}

interface Curve {
  fit: Fit;
  /** s·t(ν): what √leverage is multiplied with, downwards and upwards. */
  reach: { down: number; up: number };
  /** Back from what was fitted to N·m. */
  torqueNm: (fitted: number) => number;
}

interface Curves {
  straight: Curve;
  bent: Curve;
  /** Bends down where the logarithm cannot. */
  plain: Curve;
}

function curvesOf(readings: readonly WearReading[]): Curves {
  const x = readings.map(({ cycle }) => cycle);
  const torques = readings.map(({ breakawayNm }) => breakawayNm);
  const logarithms = torques.map((torque) => Math.log(torque));
  const meanNm = torques.reduce((sum, torque) => sum + torque, 0) / torques.length;
  return {
    straight: curveOf(fittedPolynomial(x, logarithms, 1), scatterLeast, Math.exp),
    bent: curveOf(fittedPolynomial(x, logarithms, 2), scatterLeast, Math.exp),
    plain: curveOf(fittedPolynomial(x, torques, 2), scatterLeast * meanNm, (torque) => torque),
  };
}

function curveOf(fit: Fit, least: number, torqueNm: Curve['torqueNm']): Curve {
  const scatter = Math.max(Math.sqrt(fit.residualSquares / fit.degreesOfFreedom), least);
  const reachOf = (share: number): number => scatter * studentDeviate(share, fit.degreesOfFreedom);
  return { fit, reach: { down: reachOf(fromShare), up: reachOf(toShare) }, torqueNm };
}

function bandOf({ fit, reach, torqueNm }: Curve, cycle: number): { low: number; middle: number; high: number } {
  const middle = fittedValue(fit, cycle);
  const spread = Math.sqrt(leverage(fit, cycle));
  const { down, up } = reach;
  return { low: torqueNm(middle - down * spread), middle: torqueNm(middle), high: torqueNm(middle + up * spread) };
}

function searched(
  curves: Curves,
  minimumNmAt: (cycle: number) => number | null,
  last: number,
  ahead: number,
): PassingCycle {
  let fromCycle: number | null = null;
  let likeliestCycle: number | null = null;
  let [straightPassed, bentPassed] = [false, false];
  for (let cycle = last + 1; cycle <= last + ahead; cycle += 1) {
    const minimumNm = minimumNmAt(cycle);
    const [straight, bent, plain] = [
      bandOf(curves.straight, cycle),
      bandOf(curves.bent, cycle),
      bandOf(curves.plain, cycle),
    ];
    if ([straight, bent, plain].some(({ low }) => isUnder(low, minimumNm))) fromCycle ??= cycle;
    if (isUnder(straight.middle, minimumNm)) likeliestCycle ??= cycle;
    straightPassed ||= isUnder(straight.high * (1 + lawAllowance), minimumNm);
    bentPassed ||= isUnder(bent.high * (1 + lawAllowance), minimumNm);
    if (straightPassed && bentPassed)
      return told('between', 'every fit passes under it', { fromCycle, toCycle: cycle, likeliestCycle });
  }
  if (fromCycle === last + 1)
    return told('cannot-know', 'it may be the next cycle, and the readings scatter or bend too much to say more', {
      likeliestCycle,
    });
  return told('not-before', 'the fits leave open when, and whether at all', {
    fromCycle: fromCycle ?? last + ahead + 1,
    likeliestCycle,
  });
}

function isUnder(torqueNm: number, minimumNm: number | null): boolean {
  return minimumNm !== null && !atLeast(torqueNm, minimumNm);
}

function told(
  status: PassingCycle['status'],
  why: string,
  cycles: Partial<Pick<PassingCycle, 'fromCycle' | 'toCycle' | 'likeliestCycle'>> = {},
): PassingCycle {
  return { status, why, fromCycle: null, toCycle: null, likeliestCycle: null, ...cycles, confidence };
}
