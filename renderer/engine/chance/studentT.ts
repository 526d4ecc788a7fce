import { RefusedError } from '../errors.ts';

/**
 * Share of a Student distribution between −t and t.
 *
 *   θ = arctan(t/√ν)
 *   ν = 1: 2θ/π
 *   ν odd: (2/π)·(θ + sin θ·(cos θ + (2/3)·cos³θ + (2·4)/(3·5)·cos⁵θ + … to cos^(ν−2) θ))
 *   ν even: sin θ·(1 + (1/2)·cos²θ + (1·3)/(2·4)·cos⁴θ + … to cos^(ν−2) θ)
 *
 * @param t - deviate, ≥ 0
 * @param degrees - ν, degrees of freedom, a whole number from 1 to 100,000
 * @returns the share, 0 to 1
 * @throws RefusedError out-of-range where ν or t is none of these
 * @source finite series of the integral for whole ν (textbook, from memory); held against numerical integration of the density and a
 *   printed table (from memory) in tests/validation/studentT.test.ts
 * @validity whole ν
 * @example studentShareWithin(12.706, 1) // 0.95
 */
export function studentShareWithin(t: number, degrees: number): number {
  refuseDegrees(degrees);
  if (!(t >= 0))
    throw new RefusedError({ code: 'out-of-range', message: `A deviate must be at least 0; it is ${t}.`, value: t });
  const angle = Math.atan2(t, Math.sqrt(degrees));
  const isOdd = degrees % 2 === 1;
  if (degrees === 1) return (2 * angle) / Math.PI;
  const square = Math.cos(angle) ** 2;
  let term = isOdd ? Math.cos(angle) : 1;
  let sum = term;
  for (let power = isOdd ? 3 : 2; power <= degrees - 2; power += 2) {
    term *= (square * (power - 1)) / power;
    sum += term;
  }
  return isOdd ? (2 / Math.PI) * (angle + Math.sin(angle) * sum) : Math.sin(angle) * sum;
}

/** Beyond it no share that is asked for lies: with one degree of freedom 1 − 1e-9 is at 6e8. */
const farthest = 1e12;

/**
 * The deviate within which, on both sides, a share of a Student distribution lies.
 *
 *   t with A(t|ν) = share, found by halving
 *
 * @param share - two-sided, 0 < share ≤ 1 − 1e-9
 * @param degrees - ν, degrees of freedom, a whole number from 1 to 100,000
 * @returns t; for a two-sided share of 0.95 the quantile at 0.975
 * @throws RefusedError out-of-range where the share or ν is none of these
 * @source inverse of studentShareWithin
 * @validity whole ν
 * @example studentDeviate(0.95, 10) // 2.228
 */
export function studentDeviate(share: number, degrees: number): number {
  refuseDegrees(degrees);
  if (!(share > 0 && share <= 1 - 1e-9))
    throw new RefusedError({
      code: 'out-of-range',
      message: `A share must lie between 0 and 1 − 1e-9; it is ${share}.`,
      value: share,
    });
  let low = 0;
  let high = 1;
  while (high < farthest && studentShareWithin(high, degrees) < share) {
    low = high;
    high *= 2;
  }
  for (let middle = (low + high) / 2; middle > low && middle < high; middle = (low + high) / 2) {
    if (studentShareWithin(middle, degrees) < share) low = middle;
    else high = middle;
  }
  return high;
}

const mostDegrees = 100_000;

function refuseDegrees(degrees: number): void {
  if (Number.isInteger(degrees) && degrees >= 1 && degrees <= mostDegrees) return;
  throw new RefusedError({
    code: 'out-of-range',
    message: `Degrees of freedom must be a whole number from 1 to ${mostDegrees}; they are ${degrees}.`,
    value: degrees,
  });
}
