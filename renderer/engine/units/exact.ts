/** A rational number, exact: what a decimal text or a unit's definition says, with no binary rounding. */
export interface Exact {
  numerator: bigint;
  /** Above 0. */
  denominator: bigint;
}

/**
 * Any plain decimal, with or without sign, point and exponent, as the rational it names.
 *
 * @throws RangeError where the text is no decimal: a mistake of the program, not of its user
 */
export function exactOf(decimal: string): Exact {
  const parts = /^([+-]?)(\d*)\.?(\d*)(?:[eE]([+-]?\d+))?$/.exec(decimal);
  if (parts === null) throw new RangeError(`"${decimal}" is no decimal`);
  const [, sign = '', whole = '', fraction = '', exponent = '0'] = parts;
  const digits = BigInt(`${sign === '-' ? '-' : ''}${whole}${fraction}` || '0');
  const power = Number(exponent) - fraction.length;
  return timesPowerOfTen({ numerator: digits, denominator: 1n }, power);
}

function timesPowerOfTen({ numerator, denominator }: Exact, power: number): Exact {
  return {
    numerator: numerator * 10n ** BigInt(Math.max(0, power)),
    denominator: denominator * 10n ** BigInt(Math.max(0, -power)),
  };
}

/** A double as the shortest decimal that names it: 0.1 is one tenth here, as the person who typed it meant. */
export function exactOfNumber(value: number): Exact {
  return exactOf(String(value));
}

/** a · b */
export function times(a: Exact, b: Exact): Exact {
  return { numerator: a.numerator * b.numerator, denominator: a.denominator * b.denominator };
}

/** a / b, where b is above 0: a size, or a power of ten. */
export function over(a: Exact, b: Exact): Exact {
  return { numerator: a.numerator * b.denominator, denominator: a.denominator * b.numerator };
}

/** a − b */
export function minus(a: Exact, b: Exact): Exact {
  return {
    numerator: a.numerator * b.denominator - b.numerator * a.denominator,
    denominator: a.denominator * b.denominator,
  };
}

/**
 * Which of two rationals is the greater, without rounding.
 *
 * @returns below 0, 0 or above 0 as a is less than, equal to or greater than b
 * @throws nothing
 * @source arithmetic
 * @validity any two rationals
 * @example compare(exactOf('0.1'), exactOf('0.10')) // 0
 */
export function compare(a: Exact, b: Exact): number {
  const difference = a.numerator * b.denominator - b.numerator * a.denominator;
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
}

export type Rounding = 'down' | 'up' | 'half-even';

/** How many units of the given decimal place: 54.23 at 1 decimal, up, is 543. */
export function inPlaces(value: Exact, decimals: number, rounding: Rounding): bigint {
  const { numerator, denominator } = timesPowerOfTen(value, decimals);
  const truncated = numerator / denominator;
  const floor = truncated * denominator > numerator ? truncated - 1n : truncated;
  const rest = numerator - floor * denominator;
  if (rest === 0n || rounding === 'down') return floor;
  if (rounding === 'up') return floor + 1n;
  const twice = 2n * rest;
  if (twice === denominator && floor % 2n === 0n) return floor;
  // Whole division: 1 from the half upward.
  return floor + twice / denominator;
}

/** Units of a decimal place written plainly: 543 at 1 decimal is "54.3"; never "-0". */
export function placesText(units: bigint, decimals: number): string {
  if (decimals <= 0) return String(units * 10n ** BigInt(-decimals));
  const sign = units < 0n ? '-' : '';
  const digits = String(units)
    .replace('-', '')
    .padStart(decimals + 1, '0');
  return `${sign}${digits.slice(0, -decimals)}.${digits.slice(-decimals)}`;
}

/** The least magnitude a double holds with all its digits; nearer to 0 it loses them one by one. */
export const leastFullPrecision = 2 ** -1022;

/**
 * The nearest double, by way of 25 significant digits.
 *
 * @returns the double nearest to those 25 digits
 * @throws nothing
 * @source arithmetic; the language's own reading of a decimal is to the nearest
 * @validity any rational; Infinity beyond the doubles and 0 below them, which the callers refuse
 * @example nearestNumber({ numerator: 1n, denominator: 3n }) // 0.3333333333333333
 */
export function nearestNumber(value: Exact): number {
  if (value.numerator === 0n) return 0;
  const magnitude = String(value.numerator).length - String(value.denominator).length;
  const decimals = 25 - magnitude;
  return Number(`${inPlaces(value, decimals, 'half-even')}e${-decimals}`);
}
