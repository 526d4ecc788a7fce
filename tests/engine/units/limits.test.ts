import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { UnitsShown } from '../../../renderer/engine/units/index.ts';
import { convertValue, limitIn, showLimit } from '../../../renderer/engine/units/index.ts';

describe('a limit that stands alone', () => {
  it.each<[string, 'minimum' | 'maximum', UnitsShown, string]>([
    ['6 lb', 'maximum', 'both', '6 lb (2.7 kg)'],
    ['6 lb', 'minimum', 'both', '6 lb (2.8 kg)'],
    ['6 lb', 'maximum', 'as-written', '6 lb'],
    ['1 kg', 'maximum', 'inch-pound', '2.2 lb'],
    ['1 kg', 'minimum', 'inch-pound', '2.3 lb'],
  ])('%s as a %s, %s: %s', (typed, end, mode, shown) => {
    expect(showLimit(typed, end, mode)).toBe(shown);
  });

  it('is exact in its own unit and never loosened in another', () => {
    expect(limitIn('4.4 lb', 'maximum', { unit: 'lb', decimals: 2 })).toBe('4.40');
    expect(limitIn('6 lb', 'maximum', { unit: 'kg', decimals: 3 })).toBe('2.721');
    expect(limitIn('6 lb', 'minimum', { unit: 'kg', decimals: 3 })).toBe('2.722');
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 100_000 }), fc.integer({ min: 0, max: 4 }), (hundredths, decimals) => {
        const typed = `${hundredths / 100} lb`;
        const kg = convertValue(hundredths / 100, 'lb', 'kg');
        const most = Number(limitIn(typed, 'maximum', { unit: 'kg', decimals }));
        const least = Number(limitIn(typed, 'minimum', { unit: 'kg', decimals }));
        const place = 10 ** -decimals;
        return most <= kg + 1e-9 && kg - most < place + 1e-9 && least >= kg - 1e-9 && least - kg < place + 1e-9;
      }),
      { numRuns: 2000, seed: 11 },
    );
  });
});
