import { RefusedError } from '../errors.ts';
import { exactSize, wrongKind } from './convert.ts';
import {
  compare,
  exactOf,
  exactOfNumber,
  inPlaces,
  minus,
  nearestNumber,
  over,
  placesText,
  times,
  type Exact,
} from './exact.ts';
import { kindOf, type Unit } from './kinds.ts';

export interface ShownBand {
  min: string;
  max: string;
}

/** Share of a band's width that rounding inward may take. */
const lossMax: Exact = { numerator: 5n, denominator: 100n };

/**
 * A nominal value rounded to a number of decimals, half to even, in decimal: the digits rounded are those of the shortest
 * decimal that names the double, so 2.675 is a tie and 1.005 too.
 *
 * @param value - any finite number [any unit]
 * @param decimals - places after the point; below 0 rounds to tens, hundreds …
 * @returns the digits, as many decimals as asked for; never "-0"
 * @throws RefusedError not-finite
 * @source project rule; rounding half to even as in ISO 80000-1 annex B, rule A (from memory)
 * @validity nominal values; a limit is rounded inward instead
 * @example roundNominal(2.675, 2) // "2.68"; roundNominal(0.125, 2) // "0.12"
 */
export function roundNominal(value: number, decimals: number): string {
  refuseNonFinite(value);
  return placesText(inPlaces(exactOfNumber(value), decimals, 'half-even'), decimals);
}

/**
 * The two ends of a band rounded inward: the minimum up, the maximum down, with as few decimals as lose at most 5 % of the
 * width. The band shown lies inside the band given, is never empty, and each end moves by less than one unit of its last place.
 * A band of no width is shown with all its digits.
 *
 * @param band.min - lower end [any unit], ≤ max
 * @param band.max - upper end [the same]
 * @returns the digits of both ends, with the same number of decimals
 * @throws RefusedError not-finite; contradiction where min > max
 * @source project rule: keeping to what is shown keeps to what is meant
 * @validity limits of any size and sign
 * @example roundInward({ min: 54.232717933256, max: 67.79089741657 }) // { min: '54.3', max: '67.7' }
 */
export function roundInward(band: { min: number; max: number }): ShownBand {
  refuseNonFinite(band.min);
  refuseNonFinite(band.max);
  return inward(exactOfNumber(band.min), exactOfNumber(band.max));
}

/**
 * A band of limits in another unit, rounded inward from the exact conversion: no binary rounding stands between the limit as
 * typed and the digits shown.
 *
 * @param band.min - lower end [`unit`], ≤ max
 * @param band.max - upper end [`unit`]
 * @returns the digits of both ends in `to`
 * @throws RefusedError not-finite, wrong-kind, contradiction
 * @source the exact definitions in kinds.ts; roundInward's rule
 * @validity two units of one kind
 * @example bandIn({ min: 40, max: 50, unit: 'lbf·ft' }, 'N·m') // { min: '54.3', max: '67.7' }
 */
export function bandIn(band: { min: number; max: number; unit: Unit }, to: Unit): ShownBand {
  refuseNonFinite(band.min);
  refuseNonFinite(band.max);
  return inward(exactIn(exactOfNumber(band.min), band.unit, to), exactIn(exactOfNumber(band.max), band.unit, to));
}

/**
 * A value in another unit, exact.
 *
 *   value · size(from) / size(to)
 *
 * @returns the rational, in `to`
 * @throws RefusedError wrong-kind
 * @source the exact definitions in kinds.ts
 * @validity two units of one kind; rad by way of 33 digits of 180/π
 * @example exactIn(exactOf('1'), 'in', 'mm') // 254/10
 */
export function exactIn(value: Exact, from: Unit, to: Unit): Exact {
  if (kindOf(from) !== kindOf(to)) throw wrongKind(from, kindOf(to), to);
  return from === to ? value : over(times(value, exactSize(from)), exactSize(to));
}

/**
 * Both ends inward; the work behind roundInward and bandIn.
 *
 * @throws RefusedError contradiction where min > max
 */
export function inward(min: Exact, max: Exact): ShownBand {
  const order = compare(min, max);
  if (order > 0) {
    throw new RefusedError({
      code: 'contradiction',
      message: `The minimum ${nearestNumber(min)} is above the maximum ${nearestNumber(max)}.`,
    });
  }
  if (order === 0) return { min: String(nearestNumber(min)), max: String(nearestNumber(max)) };
  const width = minus(max, min);
  for (let decimals = 0; ; decimals += 1) {
    const up = inPlaces(min, decimals, 'up');
    const down = inPlaces(max, decimals, 'down');
    const shown = over(exactOf(String(down - up)), exactOf(`1e${decimals}`));
    // Lost at most 5 %: width − shown ≤ 0.05 width. An inverted or empty band has lost all of it.
    if (compare(minus(width, shown), times(width, lossMax)) <= 0) {
      return { min: placesText(up, decimals), max: placesText(down, decimals) };
    }
  }
}

/**
 * A number written plainly: four significant digits, whole numbers whole, no trailing zeros, no binary noise; an exponent only
 * below 0.000001 and from 1e15 up.
 *
 * @param value - any finite number [any unit]
 * @param significantDigits - digits kept of a number that is not whole
 * @returns the text, half to even at its last digit
 * @throws RefusedError not-finite
 * @source project rule
 * @validity nominal values for a reader; exports carry full precision
 * @example showNumber(61.01180767491302) // "61.01"; showNumber(13558.179) // "13558"; showNumber(0.1 + 0.2) // "0.3"
 */
export function showNumber(value: number, significantDigits = 4): string {
  refuseNonFinite(value);
  if (value === 0) return '0';
  const magnitude = Math.abs(value);
  // Held against the value itself: log10 of a number a hair below a power of ten is that power already.
  if (magnitude < 1e-6 || magnitude >= 1e15) {
    const [mantissa = '', exponent = ''] = value.toExponential(significantDigits - 1).split('e');
    return `${withoutTrailingZeros(mantissa)}e${Number(exponent)}`;
  }
  const decimals = Math.max(significantDigits - 1 - Math.floor(Math.log10(magnitude)), 0);
  return quicklyShown(value, decimals) ?? withoutTrailingZeros(roundNominal(value, decimals));
}

const powersOfTen = [1, 10, 100, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9] as const;

/**
 * A number rounded in doubles, which gives what decimal arithmetic gives wherever the number is no tie nor near one.
 *
 * @returns the digits without trailing zeros; null where it may be a tie, or has more digits than doubles are sure of
 */
function quicklyShown(value: number, decimals: number): string | null {
  const power = powersOfTen[decimals];
  const scaled = Math.abs(value) * (power ?? Number.NaN);
  if (power === undefined || !(scaled < 1e9)) return null;
  const whole = Math.floor(scaled);
  const rest = scaled - whole;
  if (Math.abs(rest - 0.5) < 1e-6) return null;
  let digits = rest < 0.5 ? whole : whole + 1;
  let places = decimals;
  for (; places > 0 && digits % 10 === 0; places -= 1) digits /= 10;
  const sign = value < 0 ? '-' : '';
  if (places === 0) return `${sign}${digits}`;
  const size = powersOfTen[places] ?? 1;
  return `${sign}${Math.floor(digits / size)}.${String(digits % size).padStart(places, '0')}`;
}

function withoutTrailingZeros(digits: string): string {
  return digits.includes('.') ? digits.replace(/\.?0+$/, '') : digits;
}

function refuseNonFinite(value: number): void {
  if (!Number.isFinite(value)) {
    throw new RefusedError({ code: 'not-finite', message: `${value} is not a finite quantity.`, value });
  }
}
