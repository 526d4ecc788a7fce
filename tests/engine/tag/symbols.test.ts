/** Bars, squares and dots against the counts their standards state. */
import { describe, expect, it } from 'vitest';
import { code128Widths, qrModules, symbolDots, tagText } from '../../../renderer/engine/tag/index.ts';

describe('bars', () => {
  // ISO/IEC 15417: 11 modules to a character, 13 to the stop character, bars of a character an even sum (from memory).
  it('have 11 modules to each character and 13 to the last, for every pair of digits', () => {
    const patterns = new Set<string>();
    for (let pair = 0; pair < 100; pair += 1) {
      const widths = code128Widths(String(pair).padStart(2, '0'));
      expect(widths.length).toBe(3 * 6 + 7);
      expect(widths.reduce((sum, width) => sum + width, 0)).toBe(3 * 11 + 13);
      const own = widths.slice(6, 12);
      expect(own.every((width) => width >= 1 && width <= 4)).toBe(true);
      expect(((own[0] ?? 0) + (own[2] ?? 0) + (own[4] ?? 0)) % 2).toBe(0);
      patterns.add(own.join(''));
    }
    expect(patterns.size).toBe(100);
  });

  // Worked by hand: start C 105, 12 once, 34 twice: 105 + 12 + 68 = 185, less 103: 82.
  it('end with the check character', () => {
    const eightyTwo = code128Widths('82').slice(6, 12);
    expect(code128Widths('1234').slice(18, 24)).toEqual(eightyTwo);
  });

  it.each(['123', '', '12a4', '１２'])('are not made of “%s”', (digits) => {
    expect(() => code128Widths(digits)).toThrow('pairs of digits');
  });
});

describe('a square', () => {
  // ISO/IEC 18004: version 1 is 21 modules wide, and has its finder pattern in three corners; level Q is written as 11 in
  // the first two format bits, 1 after the mask 101010000010010 is taken off (from memory).
  it('is of version 1 at level Q', () => {
    const modules = qrModules(tagText({ kind: 'bag', tag: 999_999, piece: 999 }));
    expect(modules.length).toBe(21);
    expect(modules.every((row) => row.length === 21)).toBe(true);
    expect(modules[0]?.slice(0, 8).map(Number).join('')).toBe('11111110');
    const format = [modules[8]?.[0], modules[8]?.[1]].map(Number).join('');
    expect([Number(format[0]) ^ 1, Number(format[1]) ^ 0].join('')).toBe('11');
  });

  it('carries digits alone', () => {
    expect(() => qrModules('SD-18')).toThrow('digits alone');
  });
});

describe('dots', () => {
  it.each([203, 300] as const)('of %i to the inch are whole, and the symbols wide enough', (dpi) => {
    const { dotMm, bar, barQuiet, module, moduleQuiet } = symbolDots(dpi);
    for (const dots of [bar, barQuiet, module, moduleQuiet]) expect(Number.isInteger(dots)).toBe(true);
    expect(bar * dotMm).toBeGreaterThanOrEqual(0.33);
    expect(module * dotMm).toBeGreaterThanOrEqual(0.5);
    expect(barQuiet).toBeGreaterThanOrEqual(10 * bar);
    expect(moduleQuiet).toBeGreaterThanOrEqual(4 * module);
    expect(25.4 / dotMm).toBeCloseTo(dpi, -1);
  });
});
