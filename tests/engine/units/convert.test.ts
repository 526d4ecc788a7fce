import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import {
  allUnits,
  converter,
  convertValue,
  kindOf,
  readQuantity,
  showQuantity,
  unitsOf,
  type Unit,
} from '../../../renderer/engine/units/index.ts';
import { over, ratio, sizes, times, type Ratio } from './exactSizes.ts';
import { shareOf } from '../../support/shareOf.ts';

/** A double is exactly a whole number over a power of two. */
function ofDouble(value: number): Ratio {
  let bottom = 1n;
  let scaled = value;
  while (!Number.isInteger(scaled)) {
    scaled *= 2;
    bottom *= 2n;
  }
  return { top: BigInt(scaled), bottom };
}
/** |a/b − 1| as a double, exact up to the last step. */
function relativeError(a: Ratio, b: Ratio): number {
  const difference = a.top * b.bottom - b.top * a.bottom;
  const scale = 10n ** 25n;
  return Number(((difference < 0n ? -difference : difference) * scale) / (b.top * a.bottom)) / 1e25;
}
function ulp(value: number): number {
  const bits = new BigUint64Array(new Float64Array([Math.abs(value)]).buffer);
  const next = new Float64Array(new BigUint64Array([(bits[0] ?? 0n) + 1n]).buffer);
  return (next[0] ?? 0) - Math.abs(value);
}

const pairs = allUnits.flatMap((from) => unitsOf(kindOf(from)).map((to): [Unit, Unit] => [from, to]));

it('every unit has a size worked out here too', () => {
  expect(allUnits.filter((unit) => sizes[unit] === undefined)).toEqual([]);
});

it.each(pairs)('%s → %s is within 1e-15 of the exact factor', (from, to) => {
  const exact = over(sizes[from] ?? ratio(0n), sizes[to] ?? ratio(1n));
  expect(relativeError(ofDouble(convertValue(1, from, to)), exact)).toBeLessThanOrEqual(1e-15);
});

it('converts any value within 1e-15 of the exact conversion', () => {
  fc.assert(
    fc.property(fc.constantFrom(...pairs), fc.double({ min: 1e-9, max: 1e9, noNaN: true }), ([from, to], value) => {
      const exact = times(ofDouble(value), over(sizes[from] ?? ratio(0n), sizes[to] ?? ratio(1n)));
      return relativeError(ofDouble(convertValue(value, from, to)), exact) <= 1e-15;
    }),
    { numRuns: shareOf(10_000), seed: 11 },
  );
});

it('converts values at both ends of the doubles exactly, though the anchor unit cannot hold them', () => {
  expect(convertValue(1e-304, 'Pa', 'Pa')).toBe(1e-304);
  expect(convertValue(3e-304, 'Pa', 'psi')).toBe(4.351132131906276e-308);
  expect(convertValue(1e306, 'kN·m', 'MN·m')).toBe(1e303);
  expect(convertValue(-1e306, 'kN·m', 'MN·m')).toBe(-1e303);
  expect(convertValue(0, 'N', 'kN')).toBe(0);
  // The least number a double holds with all its digits.
  expect(convertValue(2 ** -1022, 'mm', 'mm')).toBe(2 ** -1022);
});

it('comes back within 4 units of the last place', () => {
  fc.assert(
    fc.property(fc.constantFrom(...pairs), fc.double({ min: -1e12, max: 1e12, noNaN: true }), ([from, to], value) => {
      fc.pre(Math.abs(value) > 1e-200);
      const back = convertValue(convertValue(value, from, to), to, from);
      return Math.abs(back - value) <= 4 * ulp(value);
    }),
    { numRuns: shareOf(10_000), seed: 12 },
  );
});

it('a resolved converter gives the same bits for every pair, and refuses the same', () => {
  const magnitudes = fc.oneof(fc.double({ noNaN: true, noDefaultInfinity: true }), fc.double({ min: -1e9, max: 1e9 }));
  fc.assert(
    fc.property(
      fc.constantFrom(...pairs),
      fc.oneof(magnitudes, fc.constantFrom(NaN, Infinity, 0, -0)),
      (pair, value) => {
        const [from, to] = pair;
        const outcome = (run: () => number): unknown => {
          try {
            return run();
          } catch (error) {
            if (!(error instanceof RefusedError)) throw error;
            return error.refusal;
          }
        };
        const resolved = outcome(() => converter(from, to)(value));
        expect(resolved).toEqual(outcome(() => convertValue(value, from, to)));
      },
    ),
    { numRuns: shareOf(20_000), seed: 14 },
  );
  expect(() => converter('lb', 'lbf')).toThrowError(/asked for is lbf, a unit of force/);
});

it('a value in its own unit is never altered, nor the text that is its authority', () => {
  const value = fc.double({ noNaN: true, noDefaultInfinity: true }).filter((v) => v === 0 || Math.abs(v) >= 2 ** -1022);
  fc.assert(
    fc.property(fc.constantFrom(...allUnits), value, (unit, given) => {
      expect(convertValue(given, unit, unit)).toBe(given + 0);
      if (Math.abs(given) > 1e15 || (given !== 0 && Math.abs(given) < 1e-6)) return;
      const typed = `${given} ${unit}`;
      const read = readQuantity(typed);
      showQuantity(typed, 'both');
      expect(read).toEqual({ value: given + 0, unit, kind: kindOf(unit), typed });
      expect(showQuantity(typed, 'as-written')).toBe(`${String(given)} ${unit}`);
    }),
    { numRuns: shareOf(10_000), seed: 15 },
  );
});

describe('refuses what is no finite quantity before any conversion', () => {
  it.each([Number.NaN, Infinity, -Infinity])('%d', (value) => {
    expect(() => convertValue(value, 'lbf·ft', 'N·m')).toThrowError(RefusedError);
    expect(() => convertValue(value, 'mm', 'mm')).toThrowError(RefusedError);
  });

  it('a result too large for a double', () => {
    expect(() => convertValue(1e308, 'MPa', 'Pa')).toThrowError(/too large to hold/);
  });

  it.each<[number, Unit, Unit]>([
    [1e-306, 'N', 'kN'],
    [-1e-306, 'N', 'kN'],
    [5e-324, 'N', 'kN'],
    [1e-307, 'kN·m', 'MN·m'],
    [3e-308, 'mm', 'm'],
    [1e-310, 'mm', 'mm'],
  ])('a result too small for a double: %d %s in %s', (value, from, to) => {
    expect(() => convertValue(value, from, to)).toThrowError(/too small to hold/);
  });

  it('units of two kinds, naming both', () => {
    expect(() => convertValue(1, 'lb', 'lbf')).toThrowError(
      /"lb" is a unit of mass; asked for is lbf, a unit of force/,
    );
  });
});

it('constants the design states, to the last digit', () => {
  const stated: [Unit, Unit, number][] = [
    ['lbf·ft', 'N·m', 1.3558179483314003],
    ['lbf·in', 'N·m', 0.1129848290276167],
    ['ozf·in', 'N·m', 0.1129848290276167 / 16],
    ['kgf·m', 'N·m', 9.80665],
    ['kgf', 'N', 9.80665],
    ['ksi', 'MPa', 6.894757293168361],
    ['in', 'mm', 25.4],
    ['lb', 'kg', 0.45359237],
    ['lbf·ft', 'lbf·in', 12],
    ['lbf·in', 'ozf·in', 16],
  ];
  for (const [from, to, factor] of stated) expect([from, to, convertValue(1, from, to)]).toEqual([from, to, factor]);
});
