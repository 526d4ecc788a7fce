import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  allUnits,
  bandIn,
  kindOf,
  roundInward,
  roundNominal,
  showNumber,
  unitsOf,
  type Unit,
} from '../../../renderer/engine/units/index.ts';
import { over, ratio, sizes } from './exactSizes.ts';

/** A decimal text as units of 10⁻⁴⁰, for comparing without rounding. */
function units(text: string): bigint {
  const sign = text.startsWith('-') ? -1n : 1n;
  const [whole = '0', fraction = ''] = text.replace('-', '').split('.');
  return sign * BigInt(whole + fraction.padEnd(40, '0'));
}

/** The exact conversion in the same units, rounded so as to be the harder of the two to satisfy. */
function exactUnits(value: number, from: Unit, to: Unit, harder: 'up' | 'down'): bigint {
  const conversion = over(sizes[from] ?? ratio(0n), sizes[to] ?? ratio(1n));
  const top = units(roundNominal(value, 40)) * conversion.top;
  const rest = top % conversion.bottom;
  return top / conversion.bottom + (harder === 'up' && rest > 0n ? 1n : harder === 'down' && rest < 0n ? -1n : 0n);
}

function lastPlace(text: string): bigint {
  const decimals = text.includes('.') ? text.length - text.indexOf('.') - 1 : 0;
  return 10n ** BigInt(40 - decimals);
}

const conversions = allUnits.flatMap((from) => unitsOf(kindOf(from)).map((to): [Unit, Unit] => [from, to]));

describe('limits convert inward', () => {
  it('10 000 random bands: inside, never empty or inverted, at most 5 % lost, each end moved less than its last place', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...conversions),
        fc.double({ min: 1e-3, max: 1e5, noNaN: true }),
        fc.double({ min: 1e-6, max: 1, noNaN: true }),
        fc.integer({ min: 2, max: 9 }),
        ([from, to], middle, width, digits) => {
          const min = Number(middle.toPrecision(digits));
          const max = Number((middle * (1 + width)).toPrecision(digits));
          fc.pre(min < max);
          const shown = bandIn({ min, max, unit: from }, to);
          const [low, high] = [exactUnits(min, from, to, 'up'), exactUnits(max, from, to, 'down')];
          const [shownLow, shownHigh] = [units(shown.min), units(shown.max)];
          const inside = shownLow >= low && shownHigh <= high && shownLow < shownHigh;
          const near = shownLow - low < lastPlace(shown.min) && high - shownHigh < lastPlace(shown.max);
          // 40 units of 10⁻⁴⁰ stand for the rounding of the exact ends above.
          const kept = 20n * (high - low - (shownHigh - shownLow)) <= high - low + 40n;
          return inside && near && kept;
        },
      ),
      { numRuns: 10_000, seed: 3 },
    );
  });

  it.each([
    [40, 50, 'lbf·ft', 'N·m', '54.3', '67.7'],
    [5.0, 5.2, 'lbf·in', 'N·m', '0.565', '0.587'],
    [1, 3, 'in', 'mm', '26', '76'],
    [1, 2, 'in', 'mm', '25.4', '50.8'],
    [10, 20, 'in', 'mm', '254', '508'],
    [40, 50, 'N·m', 'N·m', '40', '50'],
    [45.5, 50, 'N·m', 'N·m', '45.5', '50.0'],
    [-2, 2, 'in', 'mm', '-50', '50'],
    [0, 10, 'lbf·ft', 'N·m', '0', '13'],
    // 5 % is lost, and no more may be.
    [0.5, 20.5, 'mm', 'mm', '1', '20'],
    [0.49, 20.5, 'mm', 'mm', '0.5', '20.5'],
    // No decimal holds a twelfth: a band of no width is then the nearest double.
    [1, 1, 'lbf·in', 'lbf·ft', '0.08333333333333333', '0.08333333333333333'],
  ] as const)('%d to %d %s in %s is %s to %s', (min, max, unit, to, low, high) => {
    expect(bandIn({ min, max, unit }, to)).toEqual({ min: low, max: high });
  });

  it('a limit that converts to a short decimal is not moved by binary noise', () => {
    // As doubles 1.11 · 25.4 is 28.194000000000003 and 1.69 · 25.4 is 42.925999999999995: 28.195 and 42.925 would be shown.
    expect(bandIn({ min: 1.11, max: 1.113, unit: 'in' }, 'mm')).toEqual({ min: '28.194', max: '28.270' });
    expect(bandIn({ min: 1.687, max: 1.69, unit: 'in' }, 'mm')).toEqual({ min: '42.850', max: '42.926' });
  });

  it('10 000 bands of doubles round inward too', () => {
    const end = fc.double({ min: -1e6, max: 1e6, noNaN: true }).filter((value) => Math.abs(value) > 1e-12);
    fc.assert(
      fc.property(end, fc.double({ min: 1e-9, max: 1e3, noNaN: true }), (min, width) => {
        const max = min + width;
        fc.pre(max > min);
        const shown = roundInward({ min, max });
        return Number(shown.min) >= min && Number(shown.max) <= max && Number(shown.min) < Number(shown.max);
      }),
      { numRuns: 10_000, seed: 4 },
    );
  });

  it('a band of no width keeps its digits', () => {
    expect(roundInward({ min: 4.0674538449942, max: 4.0674538449942 })).toEqual({
      min: '4.0674538449942',
      max: '4.0674538449942',
    });
  });

  it('an inverted or endless band is refused', () => {
    expect(() => roundInward({ min: 2, max: 1 })).toThrowError(/minimum 2 is above the maximum 1/);
    expect(() => roundInward({ min: Number.NaN, max: 1 })).toThrowError(/not a finite/);
    expect(() => bandIn({ min: 1, max: Infinity, unit: 'mm' }, 'in')).toThrowError(/not a finite/);
    expect(() => bandIn({ min: 1, max: 2, unit: 'mm' }, 'N')).toThrowError(/"mm" is a unit of length/);
  });
});

describe('nominal values round half to even, in decimal', () => {
  it.each([
    [0.5, 0, '0'],
    [1.5, 0, '2'],
    [2.5, 0, '2'],
    [-2.5, 0, '-2'],
    [-0.4, 0, '0'],
    [1.005, 2, '1.00'],
    [1.015, 2, '1.02'],
    [2.675, 2, '2.68'],
    [0.125, 2, '0.12'],
    [61.011807674913015, 1, '61.0'],
    [1250, -2, '1200'],
    [1350, -2, '1400'],
    [5e-7, 6, '0.000000'],
    [1.5e-6, 6, '0.000002'],
    [1e21, 0, '1000000000000000000000'],
  ])('%d at %d decimals is %s', (value, decimals, text) => {
    expect(roundNominal(value, decimals)).toBe(text);
  });

  it('2 000 ties go to the even digit', () => {
    let ties = 0;
    for (let index = 0; index < 1000; index += 1) {
      for (const decimals of [1, 2]) {
        const digits = String(index).padStart(decimals + 1, '0');
        const lower = `${digits.slice(0, -decimals)}.${digits.slice(-decimals)}`;
        const even = index % 2 === 0 ? index : index + 1;
        const expected = String(even).padStart(decimals + 1, '0');
        const text = `${expected.slice(0, -decimals)}.${expected.slice(-decimals)}`;
        expect([`${lower}5`, roundNominal(Number(`${lower}5`), decimals)]).toEqual([`${lower}5`, text]);
        ties += 1;
      }
    }
    expect(ties).toBe(2000);
  });

  it('1 000 ties of either sign and up to nine decimals go to the even digit', () => {
    const ties = fc.tuple(fc.integer({ min: 0, max: 99_999 }), fc.integer({ min: 1, max: 9 }), fc.boolean());
    fc.assert(
      fc.property(ties, ([digits, decimals, negative]) => {
        const sign = negative ? '-' : '';
        const even = digits % 2 === 0 ? digits : digits + 1;
        const [tie, expected] = [`${digits}5`, String(even)].map((text, index) => {
          const places = decimals + 1 - index;
          const padded = text.padStart(places + 1, '0');
          return `${padded.slice(0, -places)}.${padded.slice(-places)}`;
        });
        const shown = roundNominal(Number(`${sign}${tie}`), decimals);
        expect([tie, shown]).toEqual([tie, even === 0 ? expected : `${sign}${expected}`]);
      }),
      { numRuns: 1000, seed: 6 },
    );
  });

  it('never moves a value by more than half of the last place', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e9, max: 1e9, noNaN: true }),
        fc.integer({ min: 0, max: 6 }),
        (value, decimals) => {
          expect(Math.abs(Number(roundNominal(value, decimals)) - value)).toBeLessThanOrEqual(
            0.5 * 10 ** -decimals * (1 + 1e-6) + 1e-6 * 10 ** -decimals,
          );
        },
      ),
      { numRuns: 5000, seed: 5 },
    );
  });
});

it.each([
  [0, '0'],
  [-0, '0'],
  [45, '45'],
  [0.1 + 0.2, '0.3'],
  [61.011807674913015, '61.01'],
  [13558.179, '13558'],
  [0.11298482902, '0.113'],
  [-2.5, '-2.5'],
  [99999.96, '100000'],
  [9.9996, '10'],
  [0.000123456, '0.0001235'],
  [1.23456e-9, '1.235e-9'],
  [1.5e21, '1.5e21'],
  // An exponent only below 0.000001 and from 1e15 up.
  [0.000001, '0.000001'],
  [9.99e-7, '9.99e-7'],
  [999999999999999, '999999999999999'],
  [1e15, '1e15'],
])('%d is shown as %s', (value, text) => {
  expect(showNumber(value)).toBe(text);
});

it('a number that is not finite is not shown', () => {
  expect(() => showNumber(Number.NaN)).toThrowError(/not a finite/);
});
