/** Label numbers: check digits against the standard's own example, and every wrong, lost, doubled and swapped digit found. */
import { describe, expect, it } from 'vitest';
import { drawsOf } from '../../../renderer/engine/chance/draws.ts';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { checkDigits, freeTags, groupedTag, readTag, tagText } from '../../../renderer/engine/tag/index.ts';
import type { Tag } from '../../../renderer/engine/tag/index.ts';

const isTaken = (text: string): boolean => 'tag' in readTag(text);

/** Numbers from a seed, with the smallest and the largest among them. */
function manyTags(count: number): Tag[] {
  const draws = drawsOf(20);
  const upTo = (most: number): number => Math.floor(draws.uniform() * (most + 1));
  const kinds = ['item', 'bag', 'manifest'] as const;
  const drawn = Array.from({ length: count }, (_, at): Tag => ({
    kind: kinds[at % 3] ?? 'item',
    tag: 1 + upTo(999_998),
    piece: upTo(999),
  }));
  return [{ kind: 'item', tag: 1, piece: 0 }, { kind: 'bag', tag: 999_999, piece: 999 }, ...drawn];
}

describe('check digits', () => {
  // ISO/IEC 7064, "Simplified procedure for ISO 7064, MOD 97-10": the string 794 gets 44, as quoted in a central
  // bank's public sheet; the other is the account number whose check digits public pages on ISO 13616 work out.
  it.each([
    ['794', '44'],
    ['32142829123456987654321611', '82'],
  ])('of %s are %s', (digits, check) => {
    expect(checkDigits(digits)).toBe(check);
  });

  it('agree with whole-number arithmetic, and leave 1 when divided by 97', () => {
    for (const tag of manyTags(2000)) {
      const text = tagText(tag);
      expect(BigInt(text) % 97n, text).toBe(1n);
      expect(readTag(text)).toEqual({ tag, text });
    }
  });
});

describe('a label number', () => {
  const texts = manyTags(500).map(tagText);

  it('is refused with any one digit wrong', () => {
    let tried = 0;
    for (const text of texts)
      for (let at = 0; at < 12; at += 1)
        for (let digit = 0; digit < 10; digit += 1) {
          const wrong = text.slice(0, at) + String(digit) + text.slice(at + 1);
          if (wrong === text) continue;
          tried += 1;
          if (isTaken(wrong)) throw new Error(`${text} read wrongly as ${wrong} is taken`);
        }
    expect(tried).toBe(texts.length * 12 * 9);
  });

  it('is refused with any two neighbours swapped', () => {
    let tried = 0;
    for (const text of texts)
      for (let at = 0; at < 11; at += 1) {
        const swapped = text.slice(0, at) + (text[at + 1] ?? '') + (text[at] ?? '') + text.slice(at + 2);
        if (swapped === text) continue;
        tried += 1;
        if (isTaken(swapped)) throw new Error(`${text} read wrongly as ${swapped} is taken`);
      }
    expect(tried).toBeGreaterThan(texts.length * 8);
  });

  it('is refused with any digit lost or doubled, and two run together', () => {
    for (const text of texts) {
      for (let at = 0; at < 12; at += 1) {
        expect(isTaken(text.slice(0, at) + text.slice(at + 1))).toBe(false);
        expect(isTaken(text.slice(0, at + 1) + text.slice(at))).toBe(false);
      }
      expect(isTaken(text + text)).toBe(false);
    }
  });

  it('has one spelling: check digits 00 and 01 are never those of another', () => {
    for (const text of texts)
      for (const check of ['00', '01', '99']) expect(isTaken(text.slice(0, 10) + check)).toBe(false);
  });

  it('is read in its groups too, as a person types it', () => {
    const text = tagText({ kind: 'item', tag: 123, piece: 4 });
    expect(groupedTag(text)).toBe('1 000123 004 69');
    expect(readTag(` ${groupedTag(text)} `)).toEqual({ tag: { kind: 'item', tag: 123, piece: 4 }, text });
  });

  it.each([
    ['', 'no label number'],
    ['SD-18', 'is no label number: that is 12 digits'],
    ['4006381333931', 'has 13 digits'],
    ['1', 'has 1 digit,'],
    ['100012300468', 'the check digits do not fit'],
    [`400012300${'4'}${checkDigits('4000123004')}`, 'begins with 4'],
    [`1000000001${checkDigits('1000000001')}`, 'names number 0'],
    ['١٠٠٠١٢٣٠٠٤٦٩', 'is no label number'],
    ['9'.repeat(10_000), 'has 10000 digits'],
  ])('refuses “%s” and says why', (text, reason) => {
    const reading = readTag(text);
    expect('refused' in reading ? reading.refused : '').toContain(reason);
    expect('refused' in reading ? reading.refused.length : 0).toBeLessThan(200);
  });

  it.each([
    { kind: 'item', tag: 0, piece: 0 },
    { kind: 'item', tag: 1_000_000, piece: 0 },
    { kind: 'bag', tag: 1.5, piece: 0 },
    { kind: 'bag', tag: 1, piece: 1000 },
    { kind: 'bag', tag: 1, piece: -1 },
  ] as const)('is not made of $tag, piece $piece', (tag) => {
    expect(() => tagText(tag)).toThrow(RefusedError);
  });
});

describe('the next numbers', () => {
  it('stand above all that were ever given, gaps left alone', () => {
    expect(freeTags([], 2)).toEqual([1, 2]);
    expect(freeTags([7, 3, 7], 3)).toEqual([8, 9, 10]);
    expect(freeTags([999_997], 2)).toEqual([999_998, 999_999]);
  });

  it('are refused where they end', () => {
    expect(() => freeTags([999_998], 2)).toThrow('1 numbers are left, 2 are asked for');
  });
});
