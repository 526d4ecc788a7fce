/** Least squares against the textbook's own sums, and against the normal equations solved by another library. */
import { inv, matrix, multiply, transpose, type Matrix } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { nextBreakaway } from '../../renderer/engine/asrun/nextBreakaway.ts';
import { drawsOf } from '../../renderer/engine/chance/draws.ts';
import { fittedPolynomial, fittedValue, leverage } from '../../renderer/engine/chance/leastSquares.ts';
import { studentDeviate } from '../../renderer/engine/chance/studentT.ts';

const { uniform, normal } = drawsOf(77);

function pointsOf(count: number): { x: number[]; y: number[] } {
  const x = Array.from({ length: count }, (_, index) => 1 + index * (1 + Math.floor(2 * uniform())));
  return { x, y: x.map((place) => 3 - 0.1 * place + 0.02 * place * place * uniform() + 0.2 * normal()) };
}

const series = Array.from({ length: 200 }, (_, index) => pointsOf(4 + (index % 12)));

describe('on 200 seeded series', () => {
  it.each([1, 2] as const)('a polynomial of degree %i agrees with the normal equations of mathjs', (degree) => {
    for (const { x, y } of series) {
      const fit = fittedPolynomial(x, y, degree);
      const rows = matrix(x.map((place) => Array.from({ length: degree + 1 }, (_, power) => place ** power)));
      const inverse = inv(multiply(transpose(rows), rows)) as Matrix;
      const coefficients = multiply(inverse, multiply(transpose(rows), matrix(y))).toArray() as number[];
      for (const place of [x[0] ?? 1, (x.at(-1) ?? 1) + 1, (x.at(-1) ?? 1) + 5]) {
        const v = matrix(Array.from({ length: degree + 1 }, (_, power) => place ** power));
        const value = coefficients.reduce((sum, coefficient, power) => sum + coefficient * place ** power, 0);
        expect(fittedValue(fit, place)).toBeCloseTo(value, 7);
        expect(leverage(fit, place) / Number(multiply(v, multiply(inverse, v)))).toBeCloseTo(1, 6);
      }
      const residuals = x.map((place, n) => (y[n] ?? 0) - fittedValue(fit, place));
      expect(fit.residualSquares).toBeCloseTo(
        residuals.reduce((sum, r) => sum + r * r, 0),
        12,
      );
      // What least squares leaves is orthogonal to every power.
      for (let power = 0; power <= degree; power += 1)
        expect(residuals.reduce((sum, r, n) => sum + r * ((x[n] ?? 0) / 10) ** power, 0)).toBeCloseTo(0, 8);
    }
  });

  it('the next torque and its interval are those of the sums Sxx and Sxy', () => {
    for (const { x, y } of series) {
      const next = nextBreakaway(x.map((cycle, n) => ({ cycle, breakawayNm: y[n] ?? 0 })));
      const n = x.length;
      const [meanX, meanY] = [x.reduce((a, b) => a + b) / n, y.reduce((a, b) => a + b) / n];
      const sxx = x.reduce((sum, place) => sum + (place - meanX) ** 2, 0);
      const slope = x.reduce((sum, place, i) => sum + (place - meanX) * ((y[i] ?? 0) - meanY), 0) / sxx;
      const at = (x.at(-1) ?? 0) + 1;
      const value = meanY + slope * (at - meanX);
      const s2 = x.reduce((sum, place, i) => sum + ((y[i] ?? 0) - meanY - slope * (place - meanX)) ** 2, 0) / (n - 2);
      const half = studentDeviate(0.95, n - 2) * Math.sqrt(s2 * (1 + 1 / n + (at - meanX) ** 2 / sxx));
      expect(next?.cycle).toBe(at);
      expect(next?.torqueNm).toBeCloseTo(value, 9);
      expect(next?.slopeNmPerCycle).toBeCloseTo(slope, 9);
      expect(next?.intervalNm.min).toBeCloseTo(value - half, 8);
      expect(next?.intervalNm.max).toBeCloseTo(value + half, 8);
    }
  });
});

it('an example worked by hand: 5, 4 and 3.3 N·m over cycles 1 to 3', () => {
  // Mean 4.1, slope (3.3 − 5)/2 = −0.85, at cycle 4: 4.1 − 2·0.85 = 2.4. Residuals 0.05, −0.1, 0.05: s² = 0.015/1.
  // Interval ± 12.7062·√(0.015·(1 + 1/3 + 4/2)) = ± 12.7062·0.223607 = ± 2.84120.
  const next = nextBreakaway([5, 4, 3.3].map((breakawayNm, index) => ({ cycle: index + 1, breakawayNm })));
  expect(next?.torqueNm).toBeCloseTo(2.4, 12);
  expect(next?.slopeNmPerCycle).toBeCloseTo(-0.85, 12);
  expect(next?.intervalNm.max).toBeCloseTo(2.4 + 2.8412, 4);
  expect(next?.straight).toBe(true);
});

it('coefficients are of u = (x − last)/span, as they say', () => {
  const fit = fittedPolynomial([1, 2, 3], [5, 4, 3], 1);
  expect(fit).toMatchObject({ origin: 3, scale: 2, degreesOfFreedom: 1 });
  expect(fit.coefficients).toEqual([expect.closeTo(3, 12), expect.closeTo(-2, 12)]);
  expect(fit.residualSquares).toBeCloseTo(0, 20);
  expect(leverage(fit, 4)).toBeCloseTo(1 / 3 + 4 / 2, 12);
  expect(() => fittedPolynomial([1, 1, 2], [1, 2, 3], 2)).toThrow('2 different places');
  expect(() => fittedPolynomial([1, 2, 3], [1, 2], 1)).toThrow('3 different places');
});

it('two cycles make no line, however many readings', () => {
  const readings = [1, 1, 2, 2].map((cycle) => ({ cycle, breakawayNm: 2 }));
  expect(nextBreakaway(readings)).toBeNull();
});

it('readings on a line to the last bit are straight, whatever rounding leaves', () => {
  for (let n = 4; n < 40; n += 1)
    for (const fall of [0.1, 0.03, 0.007]) {
      const readings = Array.from({ length: n }, (_, index) => ({ cycle: index + 1, breakawayNm: 5 - fall * index }));
      expect(nextBreakaway(readings)).toMatchObject({ straight: true });
      expect(nextBreakaway(readings)?.torqueNm).toBeCloseTo(5 - fall * n, 10);
    }
});

it('a bend that scatter does not explain is told', () => {
  const bent = [1, 2, 3, 4, 5, 6].map((cycle) => ({ cycle, breakawayNm: 1 + 4 / cycle + 0.001 * (cycle % 2) }));
  expect(nextBreakaway(bent)?.straight).toBe(false);
});
