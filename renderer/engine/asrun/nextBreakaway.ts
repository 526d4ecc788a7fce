import { fittedPolynomial, fittedValue, leverage } from '../chance/leastSquares.ts';
import { studentDeviate } from '../chance/studentT.ts';
import { atMost, limitTolerance } from '../tolerance.ts';
import type { NextBreakaway } from '../../../shared-types/asRun.ts';

/** A breakaway torque and the cycle it was read in. */
export interface WearReading {
  /** A whole number ≥ 1. */
  cycle: number;
  /** [N·m] */
  breakawayNm: number;
}

/** Cycles a straight line is laid through at least: two would leave nothing to say how far readings scatter. */
export const cyclesLeast = 3;
/** Of the interval, two-sided. */
export const confidence = 0.95;

/**
 * The breakaway torque to be expected at the next cycle.
 *
 *   ŷ = a + b·x by ordinary least squares, x the cycle;  interval ŷ ± t(ν)·s·√(1 + 1/n + (x − x̄)²/Σ(x − x̄)²),
 *   s² = Σ(y − ŷ)²/ν,  ν = n − 2,  t two-sided at 0.95 after Student
 *
 * @param readings - of one position, in the order of their cycles; several of one cycle are several points
 * @returns cycle, torque and interval [N·m]; null where fewer than 3 cycles have readings
 * @throws nothing
 * @source least squares and prediction interval of a straight line (textbook, from memory); contract: at least 3 cycles, the next one
 * @validity readings scatter alike at every cycle and fall along a straight line; where they do not, `straight` is false
 * @example breakaway of 5, 4 and 3 N·m over cycles 1 to 3: 2 N·m at cycle 4
 */
export function nextBreakaway(readings: readonly WearReading[]): NextBreakaway | null {
  const x = readings.map(({ cycle }) => cycle);
  const y = readings.map(({ breakawayNm }) => breakawayNm);
  const cycles = new Set(x).size;
  if (cycles < cyclesLeast) return null;
  const line = fittedPolynomial(x, y, 1);
  const cycle = line.origin + 1;
  const torqueNm = fittedValue(line, cycle);
  const scatterNm = Math.sqrt(line.residualSquares / line.degreesOfFreedom);
  const halfNm = studentDeviate(confidence, line.degreesOfFreedom) * scatterNm * Math.sqrt(1 + leverage(line, cycle));
  return {
    cycle,
    torqueNm,
    intervalNm: { min: torqueNm - halfNm, max: torqueNm + halfNm },
    confidence,
    slopeNmPerCycle: (line.coefficients[1] ?? 0) / line.scale,
    scatterNm,
    cycles,
    straight: cycles < curvedLeast || !isCurved(x, y),
  };
}

/** The line at one cycle, with the interval that a reading there lies in. */
export interface BreakawayAt {
  cycle: number;
  valueNm: number;
  lowNm: number;
  highNm: number;
}

/**
 * The same line with its prediction interval, at every cycle from the first reading to the next cycle.
 *
 * @param readings - as nextBreakaway
 * @returns none where fewer than 3 cycles have readings
 * @throws nothing
 * @source as nextBreakaway
 * @validity as nextBreakaway
 * @example breakaway of 5, 4 and 3 N·m over cycles 1 to 3: 5, 4, 3 and 2 N·m at cycles 1 to 4
 */
export function breakawayLine(readings: readonly WearReading[]): BreakawayAt[] {
  const x = readings.map(({ cycle }) => cycle);
  const y = readings.map(({ breakawayNm }) => breakawayNm);
  if (new Set(x).size < cyclesLeast) return [];
  const line = fittedPolynomial(x, y, 1);
  const scatterNm = Math.sqrt(line.residualSquares / line.degreesOfFreedom);
  const deviate = studentDeviate(confidence, line.degreesOfFreedom);
  return [...new Set([...x, Math.max(...x) + 1])].map((cycle) => {
    const valueNm = fittedValue(line, cycle);
    const halfNm = deviate * scatterNm * Math.sqrt(1 + leverage(line, cycle));
    return { cycle, valueNm, lowNm: valueNm - halfNm, highNm: valueNm + halfNm };
  });
}

/** Cycles from which on a bend can be told from scatter. */
const curvedLeast = 4;

/** Whether a parabola's bend is more than scatter makes, at the same confidence: |c|/√(s²·V₂₂) > t. */
function isCurved(x: readonly number[], y: readonly number[]): boolean {
  const { coefficients, inverse, residualSquares, degreesOfFreedom } = fittedPolynomial(x, y, 2);
  const bend = coefficients[2] ?? 0;
  // Of readings that lie on a line to the last bit, both bend and scatter are rounding.
  if (atMost(Math.abs(bend), limitTolerance * Math.max(...y))) return false;
  const variance = (residualSquares / degreesOfFreedom) * (inverse[2]?.[2] ?? 0);
  return bend ** 2 > variance * studentDeviate(confidence, degreesOfFreedom) ** 2;
}
