import fc from 'fast-check';
import { expect, it } from 'vitest';
import { atLeast, atMost } from '../../renderer/engine/tolerance.ts';

// "Comparisons of limits use a tolerance of 1e-9 relative": half of it is within, twice is not, on either side of 0.
it.each([
  [100, 100, true],
  [100 * (1 - 5e-10), 100, true],
  [100 * (1 - 2e-9), 100, false],
  [101, 100, true],
  [99, 100, false],
  [-100 * (1 + 5e-10), -100, true],
  [-100 * (1 + 2e-9), -100, false],
  [-99, -100, true],
  [1e-12, 0, true],
  [0, 0, true],
  [0, 1e-12, false],
  [-1e-12, 0, false],
])('%d is at least %d: %s', (value, limit, is) => {
  expect(atLeast(value, limit)).toBe(is);
  expect(atMost(limit, value)).toBe(is);
  expect(atMost(-value, -limit)).toBe(is);
});

it('the tolerance is the same whatever the unit', () => {
  const value = fc.double({ min: -1e6, max: 1e6, noNaN: true });
  fc.assert(
    fc.property(value, value, fc.integer({ min: -20, max: 20 }), (a, b, power) => {
      fc.pre(Math.abs(a) > 1e-6 && Math.abs(b) > 1e-6);
      expect(atLeast(a * 2 ** power, b * 2 ** power)).toBe(atLeast(a, b));
    }),
    { seed: 61 },
  );
});
