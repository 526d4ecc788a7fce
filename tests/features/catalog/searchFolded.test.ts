/** Texts as they are searched: what is folded in one go is what the patterns make of it. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { folded, foldedByPattern, foldedLines } from '../../../renderer/features/catalog/searchText.ts';

it.each([
  ['Socket 3/8 in, deep', 'socket3/8in,deep'],
  ['1-1/16"', '1 1/16in'],
  ['S-18 D', 's18d'],
  ['M 10 * 1.25', 'm10x1.25'],
  ['10 - 20 mm', '10 20mm'],
  ['a*b', 'a*b'],
  ['_-', ''],
  ['100 N·m', '100nm'],
  ['3 × 4', '3x4'],
  ['3 × b', '3×b'],
  ['two\nlines', 'twolines'],
  ['Größe 5', 'große5'],
])('%j is searched as %j', (text, as) => {
  expect(folded(text)).toBe(as);
});

it('is the same in one go as by the patterns, whatever plain signs stand beside each other', () => {
  const sign = fc.constantFrom(...' \t-_xX*/"0123456789.aB×✕·–”');
  fc.assert(
    fc.property(fc.array(sign, { maxLength: 16 }), (signs) => {
      const text = signs.join('');
      expect(folded(text)).toBe(foldedByPattern(text.toLowerCase()));
    }),
    { numRuns: 20_000, seed: 5 },
  );
});

it('takes each line of several by itself, plain or not', () => {
  const text = fc.string({ unit: fc.constantFrom(...' \n-*/"012aB×·é'), maxLength: 6 });
  fc.assert(
    fc.property(fc.array(text, { minLength: 1, maxLength: 4 }), (texts) => {
      expect(foldedLines(texts).split('\n')).toEqual(texts.map(folded));
    }),
    { numRuns: 20_000, seed: 6 },
  );
});
