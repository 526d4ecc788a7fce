import fc from 'fast-check';
import { expect, it } from 'vitest';
import {
  bandIn,
  convertValue,
  quantityIn,
  showBand,
  showQuantity,
  type UnitsShown,
} from '../../../renderer/engine/units/index.ts';

it.each<[string, UnitsShown, string]>([
  ['45 ft-lb', 'both', '45 lbf·ft (61 N·m)'],
  ['45 ft-lb', 'as-written', '45 lbf·ft'],
  ['45 ft-lb', 'si', '61 N·m'],
  ['45 ft-lb', 'inch-pound', '45 lbf·ft'],
  ['45.50 ft-lb', 'both', '45.50 lbf·ft (61.69 N·m)'],
  ['61 Nm', 'both', '61 N·m (45.0 lbf·ft)'],
  ['5 N·m', 'both', '5 N·m (44 lbf·in)'],
  ['540 in-lb', 'both', '540 lbf·in (61.0 N·m)'],
  ['20 in-oz', 'both', '20 ozf·in (141 mN·m)'],
  ['7/16 in', 'both', '7/16 in (11.11 mm)'],
  ['1-1/8"', 'both', '1-1/8 in (28.58 mm)'],
  ['12 mm', 'both', '12 mm (0.472 in)'],
  ['12 mm', 'inch-pound', '0.472 in'],
  ['0.5 kg', 'both', '0.5 kg (1.1 lb)'],
  ['10 oz', 'both', '10 oz (283 g)'],
  ['2 L', 'both', '2 L (122 in3)'],
  ['120 in3', 'both', '120 in3 (1.97 L)'],
  ['85 ksi', 'both', '85 ksi (586 MPa)'],
  ['10 kgf·m', 'both', '10 kgf·m (98 N·m)'],
  ['10 kgf·m', 'inch-pound', '72 lbf·ft'],
  ['30 deg', 'both', '30 deg'],
  // From 20 N·m up in lbf·ft, from 60 in³ up in litres, whatever the sign.
  ['19 N·m', 'both', '19 N·m (168 lbf·in)'],
  ['20 N·m', 'both', '20 N·m (14.8 lbf·ft)'],
  ['20.5 N·m', 'both', '20.5 N·m (15.12 lbf·ft)'],
  ['-25 N·m', 'both', '-25 N·m (-18.4 lbf·ft)'],
  ['59 in3', 'both', '59 in3 (967 mL)'],
  ['60 in3', 'both', '60 in3 (0.98 L)'],
  ['60.5 in3', 'both', '60.5 in3 (0.991 L)'],
  ['0 N·m', 'both', '0 N·m (0 lbf·in)'],
  ['-5 N·m', 'si', '-5 N·m'],
])('%j shown %s is %j', (typed, mode, text) => {
  expect(showQuantity(typed, mode)).toBe(text);
});

it.each<[string, string, UnitsShown, string]>([
  ['40 lbf·ft', '50 ft-lb', 'both', '40–50 lbf·ft (54.3–67.7 N·m)'],
  ['40 lbf·ft', '50 lbf·ft', 'si', '54.3–67.7 N·m'],
  ['40 lbf·ft', '50 lbf·ft', 'inch-pound', '40–50 lbf·ft'],
  ['40 lbf·ft', '50 lbf·ft', 'as-written', '40–50 lbf·ft'],
  ['5.0 in-lb', '5.2 in-lb', 'both', '5.0–5.2 lbf·in (0.565–0.587 N·m)'],
  ['480 in-lb', '50 ft-lb', 'both', '480 lbf·in – 50 lbf·ft (54.3–67.7 N·m)'],
  ['1/2 in', '3/4 in', 'both', '1/2–3/4 in (12.7–19.0 mm)'],
  ['45 lbf·ft', '45 lbf·ft', 'both', '45 lbf·ft (61 N·m)'],
])('%j to %j shown %s is %j', (min, max, mode, text) => {
  expect(showBand(min, max, mode)).toBe(text);
});

it('a band of two kinds or the wrong way round is refused', () => {
  expect(() => showBand('40 lbf·ft', '50 mm', 'both')).toThrowError(/"mm" is a unit of length/);
  expect(() => showBand('50 lbf·ft', '40 lbf·ft', 'both')).toThrowError(/above the maximum/);
});

it('2 000 typed bands are shown as the inward rounding of what was typed, fractions and mixed units too', () => {
  const end = fc.oneof(
    fc.integer({ min: 1, max: 9999 }).map((n) => `${n / 10}`),
    fc.tuple(fc.integer({ min: 1, max: 20 }), fc.integer({ min: 1, max: 15 })).map(([n, top]) => `${n}-${top}/16`),
  );
  const unit = fc.constantFrom('lbf·ft', 'lbf·in');
  fc.assert(
    fc.property(end, unit, end, unit, (a, aUnit, b, bUnit) => {
      const [low = '', high = ''] = [`${a} ${aUnit}`, `${b} ${bUnit}`].toSorted(
        (x, y) => quantityIn(x, 'torque', 'N·m') - quantityIn(y, 'torque', 'N·m'),
      );
      const [min, max] = [quantityIn(low, 'torque', 'N·m'), quantityIn(high, 'torque', 'N·m')];
      fc.pre(max > min * (1 + 1e-9));
      const [, shownMin = '', shownMax = ''] = /^([\d.]+)–([\d.]+) N·m$/.exec(showBand(low, high, 'si')) ?? [];
      const slack = 1e-12 * max;
      expect(Number(shownMin)).toBeGreaterThanOrEqual(min - slack);
      expect(Number(shownMax)).toBeLessThanOrEqual(max + slack);
      expect(Number(shownMax)).toBeGreaterThan(Number(shownMin));
      expect(Number(shownMax) - Number(shownMin)).toBeGreaterThanOrEqual(0.95 * (max - min) - slack);
      const place = 10 ** -(shownMin.split('.')[1]?.length ?? 0);
      expect(Number(shownMin) - min).toBeLessThan(place + slack);
      expect(max - Number(shownMax)).toBeLessThan(place + slack);
      // What is typed in one decimal unit is shown as bandIn shows its numbers.
      if (aUnit === bUnit && !a.includes('/') && !b.includes('/')) {
        const [from, to] = [Number(a), Number(b)].toSorted((x, y) => x - y);
        expect({ min: shownMin, max: shownMax }).toEqual(bandIn({ min: from ?? 0, max: to ?? 0, unit: aUnit }, 'N·m'));
        expect(convertValue(from ?? 0, aUnit, 'N·m')).toBeCloseTo(min, 9);
      }
    }),
    { numRuns: 2000, seed: 16 },
  );
});
