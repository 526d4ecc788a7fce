/** Patterns of positions: how they are written, where their places lie, what is refused. */
import { describe, expect, it } from 'vitest';
import {
  parsePattern,
  patternText,
  placesIn,
  pointsSeen,
  positionNames,
  readPattern,
  turnSeen,
} from '../../../renderer/engine/pattern/index.ts';
import type { Pattern } from '../../../renderer/engine/pattern/index.ts';
import { randomPattern } from './randomPattern.ts';

const places = (text: string, names: string[] = []) =>
  readPattern(text, names).map(({ position, xMm, yMm }) => [position, Math.round(xMm) + 0, Math.round(yMm) + 0]);

describe('a circle', () => {
  it('is divided clockwise from the top', () => {
    expect(places('circle 100 mm', positionNames(4))).toEqual([
      ['1', 0, 50],
      ['2', 50, 0],
      ['3', 0, -50],
      ['4', -50, 0],
    ]);
    expect(readPattern('circle 4 in from 90 deg', ['1'])[0]?.xMm).toBeCloseTo(50.8, 9);
  });

  it('is numbered the other way round where it says so, from its first angle', () => {
    expect(places('circle 100 mm from 90 deg counterclockwise', positionNames(4))).toEqual([
      ['1', 50, 0],
      ['2', 0, 50],
      ['3', -50, 0],
      ['4', 0, -50],
    ]);
  });
});

// Worked by hand on squared paper: columns 40 mm apart, rows 30 mm apart, the middle of the whole at 0, 0.
describe('a rectangle', () => {
  it('numbers a grid along its rows from the top left', () => {
    expect(places('grid 2 by 3, 40 mm by 30 mm')).toEqual([
      ['1', -40, 15],
      ['2', 0, 15],
      ['3', 40, 15],
      ['4', -40, -15],
      ['5', 0, -15],
      ['6', 40, -15],
    ]);
  });

  it('numbers a frame around from the top left, and has nothing in its middle', () => {
    const round = [
      [-40, 30],
      [0, 30],
      [40, 30],
      [40, 0],
      [40, -30],
      [0, -30],
      [-40, -30],
      [-40, 0],
    ];
    expect(places('frame 3 by 3, 40 mm by 30 mm')).toEqual(round.map((at, index) => [String(index + 1), ...at]));
    const [first, ...rest] = round;
    const other = [first ?? [], ...rest.toReversed()];
    expect(places('frame 3 by 3, 40 mm by 30 mm counterclockwise')).toEqual(
      other.map((at, index) => [String(index + 1), ...at]),
    );
  });

  it.each([
    ['grid 3 by 4, 1 mm by 1 mm', 12],
    ['frame 3 by 4, 1 mm by 1 mm', 10],
    ['frame 1 by 4, 1 mm by 1 mm', 4],
    ['frame 4 by 1, 1 mm by 1 mm', 4],
    ['frame 2 by 2, 1 mm by 1 mm', 4],
    ['1: 0 mm, 0 mm', 1],
  ])('knows that %s has %i places, each its own', (text, count) => {
    expect(placesIn(parsePattern(text))).toBe(count);
    expect(new Set(readPattern(text, []).map(({ xMm, yMm }) => `${xMm} ${yMm}`)).size).toBe(count);
  });
});

it('takes each position from its place', () => {
  expect(readPattern('1: 0 mm, 0 mm; P-2: 2 in, -5 mm', [])).toEqual([
    { position: '1', xMm: 0, yMm: 0 },
    { position: 'P-2', xMm: 50.8, yMm: -5 },
  ]);
});

it.each([
  ['round', /is no pattern of positions, as "circle 120 mm/],
  ['circle', /is no pattern/],
  ['circle 5 lb', /"5 lb"|mass|lb/],
  ['circle 0 mm', /a circle must be more than 0/],
  ['circle 5 mm from 3 mm', /mm/],
  ['grid 0 by 4, 40 mm by 30 mm', /0 rows and 4 columns: at least 1/],
  ['grid 400 by 4, 40 mm by 30 mm', /at most 1000 places/],
  ['grid 2 by 4, 40 mm', /is no pattern/],
  ['grid 2 by 4, 40 mm by 30 mm clockwise', /is a grid, whose numbers run along its rows/],
  ['grid 2 by 4, 40 mm by 0 mm', /a distance between neighbours must be more than 0/],
  ['1: 5, 5', /no unit|unit/],
  ['1: 0 mm, 0 mm; 1: 5 mm, 0 mm', /has a position twice/],
  [';', /is no pattern/],
])('refuses "%s"', (text, why) => {
  expect(() => readPattern(text, ['1'])).toThrow(why);
});

it('writes what it read and reads what it wrote: the same pattern, the same places', () => {
  for (let seed = 1; seed <= 200; seed += 1) {
    const pattern: Pattern = randomPattern(seed);
    const text = patternText(pattern);
    expect(parsePattern(text), text).toEqual(pattern);
    expect(patternText(parsePattern(text)), text).toBe(text);
  }
});

it('is seen the other way round from behind: right and left change, and so does the turn', () => {
  const mirrored = pointsSeen(readPattern('circle 100 mm', positionNames(4)), { mirrored: true });
  expect(mirrored.map(({ xMm }) => Math.round(xMm) + 0)).toEqual([0, -50, 0, 50]);
  const seen = (hand: 'left' | 'right', tightens: boolean, behind: boolean) =>
    turnSeen({ hand, tightens, mirrored: behind });
  expect(seen('right', true, false)).toBe('clockwise');
  expect(seen('right', false, false)).toBe('counterclockwise');
  expect(seen('left', true, false)).toBe('counterclockwise');
  expect(seen('right', true, true)).toBe('counterclockwise');
  expect(seen('left', false, true)).toBe('counterclockwise');
});
