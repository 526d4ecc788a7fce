/** Inputs that were right once, damaged by a seed: the same seed gives the same damage. */
import type { Dice } from '../reference/dice.ts';

const odd = [
  '',
  ' ',
  '\u00a0',
  '\u202e',
  '\ufeff',
  '\u0000',
  '\ud800',
  '0',
  '9'.repeat(400),
  '1e309',
  '1e-400',
  '-',
  '−',
  '–',
  '.',
  ',',
  '/',
  '/0',
  '1/3',
  '½',
  '٣',
  '·',
  '×',
  '"',
  '\\',
  '\\u0000',
  '{',
  '}',
  '[',
  ']',
  ':',
  'null',
  'NaN',
  'Infinity',
  '__proto__',
  'constructor',
  'N·m',
  'lbf·ft',
  'in',
  'mm²',
  'M',
  '#',
  'UNF-3A',
  'LH',
  '8.8',
  'A2-70',
  '🔧',
  'x'.repeat(300),
  '('.repeat(60),
  'a-'.repeat(80),
];

/** One to six cuts, repeats, swaps and foreign characters. */
export function damagedText(text: string, d: Dice): string {
  let damaged = text;
  const count = d.whole(1, 6);
  for (let n = 0; n < count; n += 1) {
    const at = d.whole(0, damaged.length);
    const to = Math.min(damaged.length, at + d.whole(0, 6));
    const cut = damaged.slice(at, to);
    const middle = d.pick([
      '',
      d.pick(odd),
      d.pick(odd) + cut,
      cut.repeat(d.whole(2, 30)),
      [...cut].toReversed().join(''),
      cut.toUpperCase(),
      String.fromCharCode(d.whole(0, 0xffff)),
    ]);
    damaged = damaged.slice(0, at) + middle + damaged.slice(to);
  }
  return damaged;
}

const oddValues: readonly unknown[] = [
  null,
  true,
  0,
  -0,
  -1,
  0.5,
  1e308,
  -1e308,
  5e-324,
  2 ** 53,
  '',
  '45',
  '45 N·m',
  '-3 mm',
  '0 N·m',
  '1e300 N·m',
  'M10',
  [],
  {},
  [[]],
  { min: '1 N·m', max: '2 N·m' },
  { __proto__x: 1 },
];

/** A value with a share of its fields damaged, left out, doubled or foreign. */
export function damagedValue(value: unknown, d: Dice, share = d.pick([0.005, 0.03, 0.15])): unknown {
  if (d.chance(share / 3)) return d.pick(oddValues);
  if (typeof value === 'string') return d.chance(share) ? damagedText(value, d) : value;
  if (typeof value === 'number') return d.chance(share) ? value * d.pick([-1, 0, 1e-9, 1e9, 2, 1e300]) : value;
  if (Array.isArray(value)) {
    const items = value.map((item) => damagedValue(item, d, share));
    return d.chance(share / 3) ? [...items, ...items] : items;
  }
  if (typeof value !== 'object' || value === null) return value;
  const fields = Object.entries(value).flatMap(([name, inner]): [string, unknown][] => {
    if (d.chance(share / 4)) return [];
    return [[d.chance(share / 8) ? damagedText(name, d) : name, damagedValue(inner, d, share)]];
  });
  return Object.fromEntries(d.chance(share / 4) ? [...fields, ['unheardOf', d.pick(oddValues)]] : fields);
}
