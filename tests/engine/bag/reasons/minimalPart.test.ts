import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { eachAlone, minimalPart } from '../../../../renderer/engine/bag/reasons/minimalPart.ts';

const members = Array.from({ length: 12 }, (_, index) => index);
/** It holds for whatever contains one of some parts: so are steps impossible, and limits enough. */
const parts = fc.array(fc.uniqueArray(fc.constantFrom(...members), { minLength: 1, maxLength: 4 }), { maxLength: 4 });
const within = (part: readonly number[], list: readonly number[]): boolean => part.every((one) => list.includes(one));

describe('a smallest part for which something holds', () => {
  it('holds, and without any one of its members does not', async () => {
    await fc.assert(
      fc.asyncProperty(parts, async (enough) => {
        const holds = (list: readonly number[]): boolean => enough.some((part) => within(part, list));
        const found = await minimalPart(members, (list) => Promise.resolve(holds(list)));
        expect(found === null).toBe(enough.length === 0);
        expect(found === null || holds(found)).toBe(true);
        for (const one of found ?? []) expect(holds((found ?? []).filter((other) => other !== one))).toBe(false);
        expect(found).toEqual(found && found.toSorted((a, b) => a - b));
      }),
    );
  });

  it('is the empty one where it holds for nothing at all', async () => {
    expect(await minimalPart(members, () => Promise.resolve(true))).toEqual([]);
  });

  it('is found with few tests in a long list', async () => {
    const long = Array.from({ length: 1024 }, (_, index) => index);
    let tests = 0;
    const found = await minimalPart(long, (list) => {
      tests += 1;
      return Promise.resolve(within([100, 900], list));
    });
    expect(found).toEqual([100, 900]);
    // Two members of 2¹⁰: about 2·2·10 tests, where one at a time would take 1,024.
    expect(tests).toBeLessThan(50);
  });

  it('is the one of early members where there are several', async () => {
    const found = await minimalPart(members, (list) => Promise.resolve(within([2, 3], list) || within([7, 8], list)));
    expect(found).toEqual([2, 3]);
  });
});

describe('the members that alone are enough', () => {
  it('are those and no others', async () => {
    await fc.assert(
      fc.asyncProperty(fc.uniqueArray(fc.constantFrom(...members)), parts, async (alone, enough) => {
        const holds = (list: readonly number[]): boolean =>
          alone.some((one) => list.includes(one)) || enough.some((part) => part.length > 1 && within(part, list));
        const found = await eachAlone(members, (list) => Promise.resolve(holds(list)));
        expect(found).toEqual(alone.toSorted((a, b) => a - b));
      }),
    );
  });
});
