/** Orders of tightening: by rule against examples worked by hand, each position once, and what is wrong with an order. */
import { describe, expect, it } from 'vitest';
import {
  orderFaults,
  orderOfText,
  parsePattern,
  placesIn,
  patternText,
  positionNames,
  proposeOrder,
  readPattern,
} from '../../../renderer/engine/pattern/index.ts';
import type { OrderRule } from '../../../renderer/engine/pattern/index.ts';
import { randomPattern } from './randomPattern.ts';

const order = (rule: OrderRule, text: string, count = 0): string =>
  proposeOrder(rule, readPattern(text, positionNames(count))).join(' ');

// Worked by hand with a pencil on a drawn circle: across; then into the widest gap, away from the last pair, and across again.
describe('a star', () => {
  it.each([
    ['circle 100 mm', 1, '1'],
    ['circle 100 mm', 2, '1 2'],
    ['circle 100 mm', 3, '1 2 3'],
    ['circle 100 mm', 4, '1 3 2 4'],
    ['circle 80 mm from 45 deg counterclockwise', 4, '1 3 2 4'],
    // 2, 4 and 5 lie beside one that is done; 5 is the farthest from 3, across from it 2.
    ['circle 100 mm', 5, '1 3 5 2 4'],
    ['circle 100 mm', 6, '1 4 2 5 3 6'],
    ['circle 100 mm', 8, '1 5 3 7 2 6 4 8'],
    // Quarters first; then 2, two away from 4 and four from 10; then 5, three away from 2 and 8.
    ['circle 100 mm', 12, '1 7 4 10 2 8 5 11 3 9 6 12'],
    // A rectangle 40 by 30: from 1 the diagonal; from there the long side, then the other diagonal.
    ['grid 2 by 2, 40 mm by 30 mm', 0, '1 4 3 2'],
  ])('takes %s of %i crosswise', (text, count, expected) => {
    expect(order('star', text, count)).toBe(expected);
  });
});

// Worked by hand on squared paper, from the middle outwards, clockwise within a ring.
describe('a spiral', () => {
  it.each([
    // The middle, then the four sides clockwise from the lowest number, then the corners on from the last done (the left side: top left first).
    ['grid 3 by 3, 30 mm by 30 mm', '5 2 6 8 4 1 3 9 7'],
    ['grid 1 by 4, 30 mm by 30 mm', '2 3 4 1'],
    // 6 and 7 lie 20 from the middle; 2, 3, 10, 11 at 36; 5, 8 at 60; the corners at 67. From 7, on the right: 11, 10, 2, 3; then 8, 5; then 1, 4, 12, 9.
    ['grid 3 by 4, 40 mm by 30 mm', '6 7 11 10 2 3 8 5 1 4 12 9'],
  ])('goes over %s from the middle outwards', (text, expected) => {
    expect(order('spiral', text)).toBe(expected);
  });
});

it('gives every position once, whatever the pattern', () => {
  for (let seed = 1; seed <= 200; seed += 1) {
    const text = patternText(randomPattern(seed));
    const count = placesIn(parsePattern(text)) ?? 1 + (seed % 24);
    const points = readPattern(text, positionNames(count));
    const names = points.map(({ position }) => position);
    for (const rule of ['star', 'spiral'] as const) {
      const proposed = proposeOrder(rule, points);
      expect(proposed, text).toHaveLength(count);
      expect(orderFaults(proposed, names), text).toEqual({ missing: [], twice: [], unknown: [] });
    }
  }
});

it('says what an order lacks, has twice, or has beyond the positions', () => {
  expect(orderFaults(['1', '1', '4', '1'], ['1', '2', '3'])).toEqual({
    missing: ['2', '3'],
    twice: ['1'],
    unknown: ['4'],
  });
});

it.each([
  ['1 3 2 4', '1,3,2,4'],
  ['1, 3; 2 → 4', '1,3,2,4'],
  ['1-3-2-4', '1,3,2,4'],
  ['P-1, P-3', 'P-1,P-3'],
  ['1 1 2', '1,1,2'],
  ['  ', ''],
])('reads the order "%s"', (text, expected) => {
  expect(orderOfText(text).join(',')).toBe(expected);
});
