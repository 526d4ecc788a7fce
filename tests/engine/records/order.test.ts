import { describe, expect, it } from 'vitest';
import { freeCode, freeName } from '../../../renderer/engine/records/freeNames.ts';
import { byText, inOrder } from '../../../renderer/engine/records/inOrder.ts';
import { mergedOrder } from '../../../renderer/engine/records/mergedOrder.ts';

type Places = [code: string, position: number][];

const placed = (places: Places) => places.map(([code, position]) => ({ code, position }));

describe('where entries of a file come to stand among those kept', () => {
  it.each<[says: string, here: Places, file: string, leading: 'here' | 'file', expected: Places]>([
    [
      'nothing new moves nothing',
      [
        ['a', 1],
        ['b', 2],
      ],
      'a b',
      'here',
      [
        ['a', 1],
        ['b', 2],
      ],
    ],
    [
      'one between two lies halfway',
      [
        ['a', 10],
        ['b', 20],
      ],
      'a x b',
      'here',
      [
        ['a', 10],
        ['x', 15],
        ['b', 20],
      ],
    ],
    [
      'two between two lie at thirds',
      [
        ['a', 1],
        ['b', 4],
      ],
      'a x y b',
      'here',
      [
        ['a', 1],
        ['x', 2],
        ['y', 3],
        ['b', 4],
      ],
    ],
    [
      'three between two lie at quarters',
      [
        ['a', 4],
        ['b', 8],
      ],
      'a x y z b',
      'here',
      [
        ['a', 4],
        ['x', 5],
        ['y', 6],
        ['z', 7],
        ['b', 8],
      ],
    ],
    [
      'at the end they count on',
      [
        ['a', 3],
        ['b', 7],
      ],
      'a b x y',
      'here',
      [
        ['a', 3],
        ['b', 7],
        ['x', 8],
        ['y', 9],
      ],
    ],
    [
      'at the front they count down',
      [['a', 3]],
      'x y a',
      'here',
      [
        ['x', 1],
        ['y', 2],
        ['a', 3],
      ],
    ],
    [
      'one at the front is one before',
      [['a', 3]],
      'x a',
      'here',
      [
        ['x', 2],
        ['a', 3],
      ],
    ],
    [
      'two gaps are filled apart',
      [
        ['a', 0],
        ['b', 2],
        ['c', 4],
      ],
      'a x b y c',
      'here',
      [
        ['a', 0],
        ['x', 1],
        ['b', 2],
        ['y', 3],
        ['c', 4],
      ],
    ],
    [
      'into nothing they count from 1',
      [],
      'x y z',
      'here',
      [
        ['x', 1],
        ['y', 2],
        ['z', 3],
      ],
    ],
    [
      'what follows nothing there stands first',
      [['a', 5]],
      'x',
      'here',
      [
        ['x', 4],
        ['a', 5],
      ],
    ],
    [
      'another order in the file counts for nothing where the own leads',
      [
        ['a', 1],
        ['b', 2],
      ],
      'b a',
      'here',
      [
        ['a', 1],
        ['b', 2],
      ],
    ],
    [
      'and numbers all anew where the file leads',
      [
        ['a', 10],
        ['b', 20],
      ],
      'b a',
      'file',
      [
        ['b', 1],
        ['a', 2],
      ],
    ],
    [
      'what is only here follows what it follows here',
      [
        ['a', 1],
        ['x', 2],
        ['b', 3],
      ],
      'b a',
      'file',
      [
        ['b', 1],
        ['a', 2],
        ['x', 3],
      ],
    ],
    [
      'what is only here keeps its place where the order is one',
      [
        ['a', 1],
        ['x', 2],
        ['b', 3],
      ],
      'a b',
      'file',
      [
        ['a', 1],
        ['x', 2],
        ['b', 3],
      ],
    ],
    [
      'two at one place are told apart',
      [
        ['a', 2],
        ['b', 2],
      ],
      'a b',
      'here',
      [
        ['a', 1],
        ['b', 2],
      ],
    ],
  ])('%s', (_, here, file, leading, expected) => {
    expect([...mergedOrder(placed(here), file.split(' '), leading)]).toEqual(expected);
  });
});

describe('the order of records', () => {
  it('is by position, then by code, with what was never placed at the end', () => {
    const records = [
      { code: 'd' },
      { code: 'c', position: 2 },
      { code: 'b', position: 2 },
      { code: 'a', position: 10 },
      { code: 'e', position: -1 },
      { code: 'A' },
    ];
    expect(inOrder(records).map(({ code }) => code)).toEqual(['e', 'b', 'c', 'a', 'A', 'd']);
    expect(inOrder(records.toReversed()).map(({ code }) => code)).toEqual(['e', 'b', 'c', 'a', 'A', 'd']);
  });
});

describe('two texts', () => {
  it('stand one way round whichever is named first, and the same text stands nowhere before itself', () => {
    expect(byText('S-10', 'S-9')).toBeLessThan(0);
    expect(byText('S-9', 'S-10')).toBeGreaterThan(0);
    expect(byText('S-9', 'S-9')).toBe(0);
  });
});

describe('a code that is taken', () => {
  it('gets the first number that makes it free, beginning with 2', () => {
    expect(freeCode('T-1', ['T-2'])).toBe('T-1');
    expect(freeCode('T-1', ['T-1'])).toBe('T-1-2');
    expect(freeCode('T-1', ['T-1', 'T-1-2', 'T-1-4'])).toBe('T-1-3');
    expect(freeName('Field kit', ['Field kit'])).toBe('Field kit (2)');
  });

  it('stays within 200 characters', () => {
    const long = 'x'.repeat(200);
    expect(freeCode(long, [long])).toBe(`${'x'.repeat(198)}-2`);
    expect(freeName(long, [long])).toBe(`${'x'.repeat(196)} (2)`);
    const short = 'x'.repeat(190);
    expect(freeCode(short, [short])).toBe(`${short}-2`);
  });
});
