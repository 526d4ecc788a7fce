/** RFC 8785: one text for one value. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { canonicalJson } from '../../shared-types/canonicalJson.ts';

/** Section 3.2.3 of RFC 8785: its example of names to sort, in the order it says they come out. */
it('sorts names by their UTF-16 units, as the example of RFC 8785 has it', () => {
  const example = JSON.parse(
    '{"\\u20ac":"Euro Sign","\\r":"Carriage Return","\\ufb33":"Hebrew Letter Dalet With Dagesh","1":"One","\\ud83d\\ude00":"Emoji: Grinning Face","\\u0080":"Control","\\u00f6":"Latin Small Letter O With Diaeresis"}',
  ) as unknown;
  const texts = [...canonicalJson(example).matchAll(/:"([^"]+)"/g)].map(([, text]) => text);
  expect(texts).toEqual([
    'Carriage Return',
    'One',
    'Control',
    'Latin Small Letter O With Diaeresis',
    'Euro Sign',
    'Emoji: Grinning Face',
    'Hebrew Letter Dalet With Dagesh',
  ]);
});

/** The same, name by name, as slow as it may be. */
function plainly(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(plainly).join(',')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? 'null';
  const fields = Object.entries(value).filter(([, inner]) => inner !== undefined);
  const sorted = fields.toSorted(([a], [b]) => (a < b ? -1 : 1));
  return `{${sorted.map(([name, inner]) => `${JSON.stringify(name)}:${plainly(inner)}`).join(',')}}`;
}

const names = fc.oneof(
  fc.string({ maxLength: 3 }),
  fc.constantFrom('a', 'b', '10', '9', '0', '01', 'a\nb', '\n', '__proto__', 'toJSON', 'constructor', '\ud800'),
);

it('is the same as name by name, whatever the names and however they nest', () => {
  const leaf = fc.oneof(fc.double(), fc.string(), fc.boolean(), fc.constant(null), fc.constant(undefined));
  const { value } = fc.letrec<{ value: unknown }>((tie) => ({
    value: fc.oneof(
      { maxDepth: 4 },
      leaf,
      fc.array(tie('value'), { maxLength: 4 }),
      fc.dictionary(names, tie('value'), { maxKeys: 5 }),
    ),
  }));
  fc.assert(
    fc.property(value, (one) => {
      expect(canonicalJson(one)).toBe(plainly(one));
    }),
    { numRuns: 5_000, seed: 3 },
  );
});
