/** The copy that the store makes of a record against what JSON itself gives back: the language's own writer and reader. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asWritten } from '../../renderer/store/writing/asWritten.ts';

const viaText = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

describe('a value as it is written', () => {
  it('is what JSON gives back, of any plain data', () => {
    fc.assert(
      fc.property(
        fc.object({
          maxDepth: 5,
          withNullPrototype: true,
          values: [
            ...[fc.string({ unit: 'binary' }), fc.boolean(), fc.integer(), fc.double(), fc.constant(-0)],
            ...[fc.constant(null), fc.constant(undefined), fc.constant(Number.NaN), fc.constant('__proto__')],
          ],
        }),
        (value) => {
          expect(asWritten(value)).toStrictEqual(viaText(value));
        },
      ),
      { numRuns: 2000, seed: Number(process.env['BAGWRIGHT_SEED'] ?? 4711) },
    );
  });

  it.each([
    ['a day', { at: new Date(0) }],
    ['what says itself how it is written', { own: { toJSON: () => 'so' } }],
    ['a list with a gap', Object.assign([], { 0: 1, 2: 3 })],
    ['a list with what is no data', [() => 1, undefined, Symbol('x')]],
    ['a name that would change what the object is', JSON.parse('{"a":{"__proto__":{"b":1}}}') as object],
    ['a map', { of: new Map([[1, 2]]) }],
    ['a sum that is no number', { sum: Number.NaN, most: Number.POSITIVE_INFINITY, none: -0 }],
  ])('is what JSON gives back: %s', (_what, value) => expect(asWritten(value)).toStrictEqual(viaText(value)));

  it('shares nothing with what it was made of', () => {
    const inner = { list: [{ a: 1 }] };
    const made = asWritten({ inner });
    expect(made).toStrictEqual({ inner });
    expect(made.inner).not.toBe(inner);
    expect(made.inner.list).not.toBe(inner.list);
    expect(made.inner.list[0]).not.toBe(inner.list[0]);
  });
});
