import { RefusedError } from '../errors.ts';
import { compare, exactOf, inPlaces, nearestNumber, placesText, type Exact, type Rounding } from './exact.ts';
import { kindOf, type Unit, type UnitsShown } from './kinds.ts';
import { exactOfNumeral, type Numeral } from './readNumber.ts';
import { readParts } from './readQuantity.ts';
import { exactIn, inward } from './round.ts';

const inchPound = new Set<Unit>([
  'lbf·ft',
  'lbf·in',
  'ozf·in',
  'lbf',
  'kip',
  'in',
  'ft',
  'lb',
  'oz',
  'in2',
  'in3',
  'psi',
  'ksi',
]);

/** Metric units that are no SI: shown in SI where SI is asked for. */
const siOf: Partial<Record<Unit, Unit>> = { kgf·m: 'N·m', kgf·cm: 'N·m', gf·cm: 'mN·m', kgf: 'N' };

const counterparts: Partial<Record<Unit, Unit>> = {
  N·m: 'lbf·ft',
  dN·m: 'lbf·in',
  cN·m: 'ozf·in',
  mN·m: 'ozf·in',
  kN·m: 'lbf·ft',
  MN·m: 'lbf·ft',
  kgf·m: 'lbf·ft',
  kgf·cm: 'lbf·in',
  gf·cm: 'ozf·in',
  lbf·ft: 'N·m',
  lbf·in: 'N·m',
  ozf·in: 'mN·m',
  N: 'lbf',
  kN: 'lbf',
  kgf: 'lbf',
  lbf: 'N',
  kip: 'kN',
  mm: 'in',
  cm: 'in',
  m: 'ft',
  in: 'mm',
  ft: 'm',
  kg: 'lb',
  g: 'oz',
  lb: 'kg',
  oz: 'g',
  mm2: 'in2',
  cm2: 'in2',
  in2: 'mm2',
  L: 'in3',
  mL: 'in3',
  cm3: 'in3',
  in3: 'mL',
  MPa: 'ksi',
  'N/mm2': 'ksi',
  GPa: 'ksi',
  Pa: 'psi',
  psi: 'MPa',
  ksi: 'MPa',
};

/** Where the number decides which unit is of comparable size. */
function counterpart(unit: Unit, value: number): Unit | undefined {
  const size = Math.abs(value);
  if (unit === 'N·m' && size < 20) return 'lbf·in';
  if (unit === 'in3' && size >= 60) return 'L';
  return counterparts[unit];
}

export type LimitEnd = 'minimum' | 'maximum';

const inwards: Record<LimitEnd, Rounding> = { minimum: 'up', maximum: 'down' };

interface Typed {
  numeral: Numeral;
  unit: Unit;
}

/**
 * A typed quantity as the user wants it shown. The text as typed is the authority: its number is shown unaltered, with the
 * unit's canonical spelling; a conversion is rounded half to even at the place nearest below the typed one, so that it claims
 * no less and little more than was typed.
 *
 * @returns number and unit, the other unit in brackets where both are asked for
 * @throws RefusedError as readQuantity does
 * @source project rule: source unit first; the exact definitions in kinds.ts
 * @validity nominal values; a limit is for showLimit or showBand
 * @example showQuantity('45 ft-lb', 'both') // "45 lbf·ft (61 N·m)"
 */
export function showQuantity(typed: string, mode: UnitsShown): string {
  const parts = readParts(typed);
  const asTyped = `${parts.numeral.text} ${parts.unit}`;
  const to = shownUnit(parts.unit, parts.numeral.value, mode);
  if (to === undefined) return asTyped;
  const converted = `${placedIn(parts, to, 'half-even')} ${to}`;
  return mode === 'both' ? `${asTyped} (${converted})` : converted;
}

/**
 * A typed limit that stands alone, as the user wants it shown: a conversion of a maximum is rounded down, of a minimum up,
 * so that keeping to what is shown keeps to what is meant.
 *
 * @returns number and unit, the other unit in brackets where both are asked for
 * @throws RefusedError as readQuantity does
 * @source project rule: limits convert inward; the exact definitions in kinds.ts
 * @validity one limit without its other end; of two, see showBand
 * @example showLimit('6 lb', 'maximum', 'both') // "6 lb (2.7 kg)"
 */
export function showLimit(typed: string, end: LimitEnd, mode: UnitsShown): string {
  const parts = readParts(typed);
  const asTyped = `${parts.numeral.text} ${parts.unit}`;
  const to = shownUnit(parts.unit, parts.numeral.value, mode);
  if (to === undefined) return asTyped;
  const converted = `${placedIn(parts, to, inwards[end])} ${to}`;
  return mode === 'both' ? `${asTyped} (${converted})` : converted;
}

/**
 * A typed limit in a unit and to a number of decimals of the caller's choice, rounded as showLimit rounds.
 *
 * @param to.decimals - places after the point
 * @returns the digits, without the unit
 * @throws RefusedError as readQuantity does; wrong-kind
 * @source project rule: limits convert inward; the exact definitions in kinds.ts
 * @validity one limit without its other end
 * @example limitIn('6 lb', 'maximum', { unit: 'kg', decimals: 3 }) // "2.721"
 */
export function limitIn(typed: string, end: LimitEnd, to: { unit: Unit; decimals: number }): string {
  const parts = readParts(typed, kindOf(to.unit));
  const value = exactIn(exactOfNumeral(parts.numeral), parts.unit, to.unit);
  return placesText(inPlaces(value, to.decimals, inwards[end]), to.decimals);
}

/**
 * A typed band of limits as the user wants it shown, converted inward. A band of no width is one quantity.
 *
 * @returns both ends and the unit, the other unit in brackets where both are asked for
 * @throws RefusedError as readQuantity does; wrong-kind where the ends are of two kinds; contradiction where min > max
 * @source project rule: limits convert inward; the exact definitions in kinds.ts
 * @validity two ends of one kind
 * @example showBand('40 lbf·ft', '50 lbf·ft', 'both') // "40–50 lbf·ft (54.3–67.7 N·m)"
 */
export function showBand(minTyped: string, maxTyped: string, mode: UnitsShown): string {
  const min = readParts(minTyped);
  const max = readParts(maxTyped, min.kind);
  const order = compare(exactOfNumeral(min.numeral), exactIn(exactOfNumeral(max.numeral), max.unit, min.unit));
  if (order > 0) {
    throw new RefusedError({
      code: 'contradiction',
      message: `The minimum ${minTyped} is above the maximum ${maxTyped}.`,
    });
  }
  if (order === 0) return showQuantity(minTyped, mode);
  const asTyped =
    min.unit === max.unit
      ? `${min.numeral.text}–${max.numeral.text} ${min.unit}`
      : `${min.numeral.text} ${min.unit} – ${max.numeral.text} ${max.unit}`;
  const to = shownUnit(min.unit, min.numeral.value, mode) ?? shownUnit(max.unit, max.numeral.value, mode);
  if (to === undefined) return asTyped;
  const shown = inward(
    exactIn(exactOfNumeral(min.numeral), min.unit, to),
    exactIn(exactOfNumeral(max.numeral), max.unit, to),
  );
  const converted = `${shown.min}–${shown.max} ${to}`;
  return mode === 'both' ? `${asTyped} (${converted})` : converted;
}

/** The unit a conversion is shown in; undefined where the typed one is what is asked for. */
function shownUnit(unit: Unit, value: number, mode: UnitsShown): Unit | undefined {
  if (mode === 'as-written' || kindOf(unit) === 'angle') return undefined;
  if (mode === 'si') return inchPound.has(unit) ? counterpart(unit, value) : siOf[unit];
  if (mode === 'inch-pound') return inchPound.has(unit) ? undefined : counterpart(unit, value);
  return siOf[unit] ?? counterpart(unit, value);
}

/** Digits shown at the least: lengths of parts are told apart by hundredths of a millimetre, other quantities by two digits. */
const significantMin = 2;
const lengthFinerBy = 1;

function placedIn(typed: Typed, to: Unit, rounding: Rounding): string {
  const value = exactIn(exactOfNumeral(typed.numeral), typed.unit, to);
  const placeTyped = exactIn(placeOf(typed.numeral), typed.unit, to);
  const finer = kindOf(to) === 'length' ? lengthFinerBy : 0;
  const decimals = Math.max(decimalsWithin(placeTyped) + finer, significantDecimals(value), 0);
  return placesText(inPlaces(value, decimals, rounding), decimals);
}

/** One unit of the last place typed: 0.1 of "45.5", 1 of "45", 0.001 of a fraction, which is exact but not endless. */
function placeOf(numeral: Numeral): Exact {
  if (numeral.form === 'fraction') return exactOf('0.01');
  const [digits = '', exponent = '0'] = numeral.text.split(/e/i);
  const decimals = digits.includes('.') ? digits.length - digits.indexOf('.') - 1 : 0;
  return exactOf(`1e${Number(exponent) - decimals}`);
}

/** Decimals of the greatest power of ten that is no greater than a size. */
function decimalsWithin(size: Exact): number {
  return -Math.floor(Math.log10(nearestNumber(size)));
}

function significantDecimals(value: Exact): number {
  const magnitude = Math.abs(nearestNumber(value));
  return magnitude === 0 ? 0 : significantMin - 1 - Math.floor(Math.log10(magnitude));
}
