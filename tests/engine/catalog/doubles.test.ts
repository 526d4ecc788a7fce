import { describe, expect, it } from 'vitest';
import type { Item } from '../../../shared-types/records/item.ts';
import { DoublesFinder } from '../../../renderer/engine/catalog/index.ts';

const socket = (code: string, more: object = {}): Item => ({
  ...{ id: code, rev: 0, shelf: 's', retired: false, parts: 1, kit: 'field', code, kind: 'socket', drive: '3/8 in' },
  ...{ opening: { form: 'hex6', size: '9/16 in' }, length: `${code.length + 20} mm`, outsideDiameter: '20 mm' },
  ...{ ratedTorque: '100 N·m', mass: '0.1 kg', onHand: 1, ...more },
});

function found(...items: Item[]) {
  const finder = new DoublesFinder();
  for (const item of items) finder.take(item);
  return finder.found().map(({ reason, items: of }) => [reason, of.map(({ id }) => id)]);
}

/** Twenty codes of which a person sees nothing odd. */
const odd: readonly [string, string][] = [
  ['zero-width space', 'S\u200B-18D'],
  ['zero-width non-joiner', 'S-1\u200C8D'],
  ['zero-width joiner', 'S-18\u200DD'],
  ['word joiner', 'S-18D\u2060'],
  ['byte order mark', '\uFEFFS-18D'],
  ['soft hyphen', 'S-\u00AD18D'],
  ['filler', 'S-18D\u3164'],
  ['variation selector', 'S-18D\uFE0F'],
  ['right-to-left override', 'S-\u202E18D'],
  ['left-to-right mark', 'S-18D\u200E'],
  ['right-to-left mark', 'S-18D\u200F'],
  ['isolate', '\u2066S-18D\u2069'],
  ['no-break space', 'S\u00A018D'],
  ['narrow no-break space', 'S\u202F18D'],
  ['Cyrillic S', '\u0405-18D'],
  ['Cyrillic A', 'SA\u0410-18'],
  ['Cyrillic O', 'T\u041E-18'],
  ['Greek Omicron', 'T\u039F-18'],
  ['Cyrillic I', 'L\u0406-18'],
  ['wide digit', 'S-\uFF118D'],
];

describe('codes with signs that nobody sees or tells apart', () => {
  it.each(odd)('are named: %s', (_name, code) => {
    expect(found(socket(code, { id: 'odd' }))).toEqual([['odd-signs', ['odd']]]);
  });

  it('are none where all is plain, in whatever alphabet the whole code is', () => {
    expect(found(socket('S-18D'), socket('ключ'), socket('Schlüssel 7×9', { id: 'c' }))).toEqual([]);
  });
});

describe('codes that are taken for each other', () => {
  it.each([
    ['S-10', 'S-1O'],
    ['S-1l', 'S-1I'],
    ['S-18D', 's18d'],
    ['S-18D', 'S–18D'],
    ['A-1', '\u0410-1'],
    ['M×1', 'Mx1'],
  ])('%s and %s', (one, other) => {
    const pair = found(socket(one, { id: 'a', length: '1 mm' }), socket(other, { id: 'b', length: '2 mm' }));
    expect(pair).toContainEqual(['codes-look-alike', ['a', 'b']]);
  });

  it('are not such on two shelves, nor where one is retired, nor S-10 and S-11', () => {
    expect(found(socket('S-10'), socket('S-1O', { shelf: 't', length: '9 mm' }))).toEqual([]);
    expect(found(socket('S-10'), socket('S-1O', { retired: true }))).toEqual([]);
    expect(found(socket('S-10', { length: '8 mm' }), socket('S-11', { length: '9 mm' }))).toEqual([]);
  });
});

describe('the same thing kept twice', () => {
  it('is found by kind and sizes whatever their units, name and place', () => {
    const one = socket('S-1', { length: '50.8 mm', name: 'short', keptAt: 'a' });
    expect(found(one, socket('Q-77', { length: '2 in', mass: '0.2 kg' }))).toEqual([['same-thing', ['S-1', 'Q-77']]]);
    expect(found(one, socket('Q-77', { length: '2.01 in' }))).toEqual([]);
    expect(found(one, socket('Q-77', { length: '2 in', opening: { form: 'hex12', size: '9/16 in' } }))).toEqual([]);
  });
});
