import { RefusedError } from '../errors.ts';

/** A polynomial fitted to points, about its last place so that its matrix stays well conditioned. */
export interface Fit {
  /** Place the coefficients are taken from [the places' unit]: u = (x − origin)/scale. */
  origin: number;
  /** What is 1 in u [the places' unit]. */
  scale: number;
  /** b, of ascending powers of u. */
  coefficients: number[];
  /** (VᵀV)⁻¹ of the powers of u. */
  inverse: number[][];
  /** Σ (y − ŷ)² [y's unit, squared]. */
  residualSquares: number;
  /** Points less coefficients, a number ≥ 0. */
  degreesOfFreedom: number;
}

/**
 * Polynomial through points by ordinary least squares.
 *
 *   b = (VᵀV)⁻¹·Vᵀy,  V of rows 1, u, u² …,  u = (x − x_last)/max|x − x_last|
 *
 * @param x - places, finite; at least degree + 1 of them different
 * @param y - values [any unit], finite, as many as places
 * @param degree - of the polynomial: 1 is a straight line, 2 a parabola
 * @returns the fit
 * @throws RefusedError out-of-range where the places do not determine the polynomial
 * @source least squares (textbook, from memory); held against values computed elsewhere in tests/validation/leastSquares.test.ts
 * @validity scatter of y the same at every place
 * @example fittedPolynomial([1, 2, 3], [5, 4, 3], 1).coefficients // [3, -2], u being −1, −0.5 and 0
 */
export function fittedPolynomial(x: readonly number[], y: readonly number[], degree: 1 | 2): Fit {
  const terms = degree + 1;
  if (new Set(x).size < terms || x.length !== y.length)
    throw new RefusedError({
      code: 'out-of-range',
      message: `${new Set(x).size} different places do not determine a polynomial of degree ${degree}.`,
      value: x.length,
    });
  const origin = x.at(-1) ?? 0;
  const scale = x.reduce((most, place) => Math.max(most, Math.abs(place - origin)), 0);
  // Σ uᵏ and Σ uᵏ·y: all that VᵀV and Vᵀy are made of.
  const powerSums = Array.from({ length: 2 * terms - 1 }, () => 0);
  const moments = Array.from({ length: terms }, () => 0);
  for (const [n, place] of x.entries()) {
    let power = 1;
    for (let k = 0; k < powerSums.length; k += 1) {
      powerSums[k] = at(powerSums, k) + power;
      if (k < terms) moments[k] = at(moments, k) + power * at(y, n);
      power *= (place - origin) / scale;
    }
  }
  const inverse = inverted(square(terms, (i, j) => at(powerSums, i + j)));
  const coefficients = inverse.map((row) => dot(row, moments));
  let residualSquares = 0;
  for (const [n, place] of x.entries())
    residualSquares += (at(y, n) - dot(powers((place - origin) / scale, terms), coefficients)) ** 2;
  return { origin, scale, coefficients, inverse, residualSquares, degreesOfFreedom: x.length - terms };
}

/**
 * A fitted polynomial's value at a place.
 *
 *   ŷ = v·b,  v = 1, u, u² …
 *
 * @param fit - as fittedPolynomial gives it
 * @param x - place, a finite number in the unit of the fitted places [any]
 * @returns ŷ, in y's unit
 * @throws nothing
 * @source least squares (textbook, from memory)
 * @validity as far as the polynomial holds
 * @example fittedValue(fittedPolynomial([1, 2, 3], [5, 4, 3], 1), 4) // 2
 */
export function fittedValue(fit: Fit, x: number): number {
  return dot(powersAt(fit, x), fit.coefficients);
}

/**
 * Variance of a fitted value, as a factor of the variance of one reading.
 *
 *   vᵀ(VᵀV)⁻¹v; for a straight line 1/n + (x − x̄)²/Σ(x − x̄)²
 *
 * @param fit - as fittedPolynomial gives it
 * @param x - place, a finite number in the unit of the fitted places [any]
 * @returns the factor, > 0; of a new reading it is 1 more
 * @throws nothing
 * @source least squares (textbook, from memory)
 * @validity scatter of y the same at every place
 * @example leverage(fittedPolynomial([1, 2, 3], [5, 4, 3], 1), 4) // 2.333
 */
export function leverage(fit: Fit, x: number): number {
  const v = powersAt(fit, x);
  return dot(
    v,
    fit.inverse.map((row) => dot(row, v)),
  );
}

const at = (list: readonly number[], index: number): number => list[index] ?? 0;
const dot = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, i) => sum + value * at(b, i), 0);
const powersAt = (fit: Fit, x: number): number[] => powers((x - fit.origin) / fit.scale, fit.coefficients.length);
const powers = (u: number, terms: number): number[] => Array.from({ length: terms }, (_, power) => u ** power);
const square = (size: number, cell: (i: number, j: number) => number): number[][] =>
  Array.from({ length: size }, (_, i) => Array.from({ length: size }, (_unused, j) => cell(i, j)));

/** Gauss and Jordan; a matrix VᵀV of enough different places is positive definite, so that no pivot is 0. */
function inverted(matrix: readonly (readonly number[])[]): number[][] {
  const size = matrix.length;
  const work = matrix.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  for (let pivot = 0; pivot < size; pivot += 1) {
    const pivotRow = work[pivot] ?? [];
    const scale = at(pivotRow, pivot);
    const unit = pivotRow.map((value) => value / scale);
    work.forEach((row, i) => {
      if (i === pivot) work[i] = unit;
      else work[i] = row.map((value, j) => value - at(row, pivot) * at(unit, j));
    });
  }
  return work.map((row) => row.slice(size));
}
