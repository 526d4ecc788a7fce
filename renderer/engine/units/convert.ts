import configureMeasurements, { type Measure } from 'convert-units';
import { RefusedError } from '../errors.ts';
import { exactOf, exactOfNumber, leastFullPrecision, nearestNumber, over, times, type Exact } from './exact.ts';
import { allUnits, kindOf, unitDefinitions, unitsOf, type Kind, type Unit } from './kinds.ts';

/** A unit's size in its kind's anchor unit, as the exact rational. */
export function exactSize(unit: Unit): Exact {
  const size: string | readonly [string, string] = unitDefinitions[unit].size;
  return typeof size === 'string' ? exactOf(size) : over(exactOf(size[0]), exactOf(size[1]));
}

/**
 * One system for each measure: then the package computes value · size(from) / size(to) and no rounded ratio between systems
 * comes in. Its own definitions are not used: they are rounded, some at the fourth digit.
 */
function measure(kind: Kind): Measure<Kind, Unit> {
  const units = unitsOf(kind).map(
    (unit) => [unit, { name: { singular: unit, plural: unit }, to_anchor: nearestNumber(exactSize(unit)) }] as const,
  );
  return { systems: { [kind]: Object.fromEntries(units) } } as Measure<Kind, Unit>;
}

const kinds = [...new Set(allUnits.map(kindOf))];
const measures = Object.fromEntries(kinds.map((kind) => [kind, measure(kind)])) as Record<Kind, Measure<Kind, Unit>>;
const packageConverter = configureMeasurements<Kind, Kind, Unit>(measures);

/**
 * A value in another unit of the same kind.
 *
 *   value · size(from) / size(to)
 *
 * @param value - any finite number [`from`]
 * @returns the value in `to`, within 1e-15 relative of the exact conversion
 * @throws RefusedError not-finite (the package would turn NaN into 0; a result too large for a double, or so small that it would
 *   lose digits), wrong-kind
 * @source the exact definitions in kinds.ts
 * @validity every pair of units of one kind
 * @example convertValue(45, 'lbf·ft', 'N·m') // 61.011807674913015
 */
export function convertValue(value: number, from: Unit, to: Unit): number {
  if (!Number.isFinite(value)) {
    throw new RefusedError({ code: 'not-finite', message: `${value} ${from} is not a finite quantity.`, value });
  }
  if (kindOf(from) !== kindOf(to)) throw wrongKind(from, kindOf(to), to);
  const converted = isInReach(value) ? packageConverter(value).from(from).to(to) : convertedExactly(value, from, to);
  if (!Number.isFinite(converted)) {
    throw new RefusedError({ code: 'not-finite', message: `${value} ${from} is too large to hold in ${to}.`, value });
  }
  if (value !== 0 && Math.abs(converted) < leastFullPrecision) {
    const message = `${value} ${from} is too small to hold in ${to}: it would lose digits or become 0.`;
    throw new RefusedError({ code: 'not-finite', message, value });
  }
  return converted;
}

/**
 * The conversion between two units, looked up once and used many times.
 *
 *   value · size(from) / size(to)
 *
 * @returns a function that gives what convertValue gives, to the last bit, and refuses what it refuses
 * @throws RefusedError wrong-kind
 * @source the exact definitions in kinds.ts
 * @validity every pair of units of one kind
 * @example converter('lbf·in', 'N·m')(100) // 11.29848290276167
 */
export function converter(from: Unit, to: Unit): (value: number) => number {
  if (kindOf(from) !== kindOf(to)) throw wrongKind(from, kindOf(to), to);
  const [top, bottom] = from === to ? [1, 1] : [nearestNumber(exactSize(from)), nearestNumber(exactSize(to))];
  return (value) => (isInReach(value) ? (value * top) / bottom : convertValue(value, from, to));
}

/** Whether no step by way of the anchor unit can leave the doubles: units of one kind lie within 1e10 of it. */
function isInReach(value: number): boolean {
  const magnitude = Math.abs(value);
  return magnitude > 1e-280 && magnitude < 1e280;
}

function convertedExactly(value: number, from: Unit, to: Unit): number {
  return nearestNumber(over(times(exactOfNumber(value), exactSize(from)), exactSize(to)));
}

/** The refusal that names both: the unit given and what was asked for. */
export function wrongKind(unit: Unit, wanted: Kind, wantedUnit?: Unit): RefusedError {
  const asked =
    wantedUnit === undefined
      ? `a unit of ${wanted} (${unitsOf(wanted).join(', ')})`
      : `${wantedUnit}, a unit of ${wanted}`;
  return new RefusedError({
    code: 'wrong-kind',
    message: `"${unit}" is a unit of ${kindOf(unit)}; asked for is ${asked}.${hintFor(unit, wanted)}`,
    value: unit,
  });
}

function hintFor(unit: Unit, wanted: Kind): string {
  const meant: Partial<Record<Unit, Unit>> = { lb: 'lbf', kg: 'kgf', lbf: 'lb', kgf: 'kg' };
  const other = meant[unit];
  return other !== undefined && kindOf(other) === wanted ? ` Write "${other}" for ${wanted}.` : '';
}
