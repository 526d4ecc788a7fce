import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { readJson } from '../../../renderer/engine/json/readJson.ts';
import { shareOf } from '../../support/shareOf.ts';

const maxBytes = 1_000_000;
const read = (text: string) => readJson(text, { maxBytes });

function refusalOf(run: () => unknown) {
  try {
    run();
  } catch (error) {
    if (error instanceof RefusedError) return error.refusal;
    throw error;
  }
  throw new Error('nothing was refused');
}

/** Text, code, position, row. */
const refused: [string, string, number, number][] = [
  ['', 'not-json', 0, 1],
  ['  \n ', 'not-json', 4, 2],
  ['{', 'not-json', 1, 1],
  ['{"a":1', 'not-json', 6, 1],
  ['{"a":\n[1,2', 'not-json', 10, 2],
  ['[1,]', 'not-json', 3, 1],
  ['{"a":1,}', 'not-json', 7, 1],
  ['{"a" 1}', 'not-json', 5, 1],
  ['{a:1}', 'not-json', 1, 1],
  ["['a']", 'not-json', 1, 1],
  ['[1] x', 'not-json', 4, 1],
  ['{}\n{}', 'not-json', 3, 2],
  ['nul', 'not-json', 0, 1],
  ['True', 'not-json', 0, 1],
  ['[01]', 'not-json', 2, 1],
  ['[1.]', 'not-json', 2, 1],
  ['[.5]', 'not-json', 1, 1],
  ['[+1]', 'not-json', 1, 1],
  ['[NaN]', 'not-json', 1, 1],
  ['[Infinity]', 'not-json', 1, 1],
  ['"abc', 'not-json', 4, 1],
  ['"a\tb"', 'not-json', 2, 1],
  ['"a\nb"', 'not-json', 2, 1],
  [String.raw`"\x"`, 'not-json', 1, 1],
  [String.raw`"\u12g4"`, 'not-json', 1, 1],
  [String.raw`"\x`, 'not-json', 1, 1],
  ['"\\', 'not-json', 2, 1],
  ['[1 /* one */]', 'not-json', 3, 1],
  ['[1]\u00a0', 'not-json', 3, 1],
  ['{"a":1,\n"a":2}', 'duplicate-key', 8, 2],
  [String.raw`{"a":1,"\u0061":2}`, 'duplicate-key', 7, 1],
  ['{"__proto__":{"polluted":1}}', 'forbidden-key', 1, 1],
  [String.raw`{"\u005f\u005fproto__":1}`, 'forbidden-key', 1, 1],
  ['[{"b":{"constructor":{"prototype":1}}}]', 'forbidden-key', 7, 1],
  ['{"prototype":1}', 'forbidden-key', 1, 1],
  ['[1e999]', 'not-finite', 1, 1],
  ['[-1e999]', 'not-finite', 1, 1],
  ['[1e-999]', 'not-finite', 1, 1],
  ['[0,\n-0.00003e-400]', 'not-finite', 4, 2],
  ['['.repeat(33) + ']'.repeat(33), 'too-deep', 32, 1],
  ['{"a":'.repeat(40), 'too-deep', 160, 1],
];

it.each(refused)('%j is refused as %s at %d, row %d', (text, code, position, row) => {
  expect(refusalOf(() => readJson(text, { file: 'plan.json', maxBytes }))).toMatchObject({
    code,
    position,
    row,
    file: 'plan.json',
  });
});

it.each([
  ['', 'The text is empty.'],
  [' \n', 'The text is empty.'],
  ['{"a":1', 'The text breaks off: a comma or "}" is missing at its end.'],
  ['[1,]', 'Not JSON: a value is expected where "]" stands.'],
])('%j is refused with the words %s', (text, message) => {
  expect(refusalOf(() => read(text)).message).toBe(message);
});

it('a million levels are refused and not walked into', () => {
  expect(refusalOf(() => readJson('['.repeat(1e6), { maxBytes: 1e7 })).code).toBe('too-deep');
  expect(refusalOf(() => readJson('{"a":'.repeat(1e6), { maxBytes: 1e7 })).code).toBe('too-deep');
});

it('0 however it is written, and the smallest number of all, are read', () => {
  expect(read('[0, -0.000e-999, 0E400, 5e-324]')).toEqual([0, -0, 0, 5e-324]);
});

it('32 levels, a byte order mark, lone surrogates and odd but harmless keys are read', () => {
  expect(read('['.repeat(32) + ']'.repeat(32))).toEqual(JSON.parse('['.repeat(32) + ']'.repeat(32)));
  expect(read('\uFEFF{"a":1}')).toEqual({ a: 1 });
  expect(read(String.raw`"\ud800"`)).toBe('\ud800');
  expect(read('{"":1,"toString":2,"hasOwnProperty":3}')).toEqual(JSON.parse('{"":1,"toString":2,"hasOwnProperty":3}'));
});

it('nothing that is read reaches an object’s prototype', () => {
  for (const text of ['{"__proto__":{"polluted":1}}', '{"constructor":{"prototype":{"polluted":1}}}']) {
    expect(() => read(text)).toThrow(RefusedError);
  }
  expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
});

describe('bytes of UTF-8 are counted, not characters', () => {
  it.each([
    ['"abc"', 5],
    ['"äöü"', 8],
    ['"€€"', 8],
    ['"😀"', 6],
    // The ends of the ranges of one, two, three and four bytes (RFC 3629, section 3; from memory).
    ['"\u007f"', 3],
    ['"\u0080"', 4],
    ['"\u07ff"', 4],
    ['"\u0800"', 5],
    ['"\ud7ff"', 5],
    ['"\ue000"', 5],
    ['"\u{10000}"', 6],
    ['"\u{10ffff}"', 6],
  ])('%s holds %d', (text, bytes) => {
    expect(readJson(text, { maxBytes: bytes })).toBe(JSON.parse(text));
    expect(refusalOf(() => readJson(text, { maxBytes: bytes - 1 })).code).toBe('too-large');
  });
});

const guarded = (key: string) => key === '__proto__' || key === 'constructor' || key === 'prototype';

it('reads every JSON value as JSON.parse does, however it is laid out', () => {
  fc.assert(
    fc.property(fc.jsonValue({ maxDepth: 6 }), fc.integer({ min: 0, max: 3 }), (value, indent) => {
      const text = JSON.stringify(value, null, indent);
      expect(read(text)).toEqual(JSON.parse(text));
    }),
    { numRuns: 1000, seed: 31 },
  );
});

it('damaged texts, 10 000 in all: what JSON.parse refuses is refused, and what it takes is taken unless the text is one of the four kinds refused on purpose', () => {
  const onPurpose = new Set(['duplicate-key', 'forbidden-key', 'not-finite', 'too-deep']);
  const damaged = fc
    .tuple(
      fc.jsonValue({ maxDepth: 4 }),
      fc.array(
        fc.tuple(
          fc.nat(),
          fc.nat({ max: 3 }),
          fc.constantFrom(
            '"',
            '\\',
            ',',
            ':',
            '{',
            '}',
            '[',
            ']',
            '1',
            'e',
            '.',
            '-',
            ' ',
            '\n',
            'n',
            'true',
            '\u0000',
            'é',
          ),
        ),
        {
          minLength: 1,
          maxLength: 3,
        },
      ),
    )
    .map(([value, cuts]) =>
      cuts.reduce((text, [at, removed, added]) => {
        const index = at % (text.length + 1);
        return text.slice(0, index) + added + text.slice(index + removed);
      }, JSON.stringify(value)),
    );
  fc.assert(
    fc.property(damaged, (text) => {
      let expected: { value: unknown } | null;
      try {
        expected = { value: JSON.parse(text) as unknown };
      } catch {
        expected = null;
      }
      try {
        const value = read(text);
        return expected !== null && JSON.stringify(value) === JSON.stringify(expected.value);
      } catch (error) {
        if (!(error instanceof RefusedError)) return false;
        const { code, position } = error.refusal;
        return position !== undefined && position <= text.length && (expected === null ? true : onPurpose.has(code));
      }
    }),
    { numRuns: shareOf(10_000), seed: 32 },
  );
});

it('two equal keys are refused wherever they stand, and only then', () => {
  fc.assert(
    fc.property(fc.array(fc.string({ maxLength: 3 }), { maxLength: 6 }), (keys) => {
      fc.pre(!keys.some(guarded));
      const text = `{${keys.map((key) => `${JSON.stringify(key)}:0`).join(',')}}`;
      if (new Set(keys).size === keys.length) expect(Object.keys(read(text) as object).length).toBe(keys.length);
      else expect(refusalOf(() => read(text)).code).toBe('duplicate-key');
    }),
    { numRuns: 2000, seed: 33 },
  );
});
