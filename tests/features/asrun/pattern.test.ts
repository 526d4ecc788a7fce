/** The chart of a fastener pattern: to scale where the pattern is known, a ring that says so where it is not. */
import { expect, it } from 'vitest';
import type { AsRunLine } from '../../../shared-types/inspection.ts';
import { patternLayout } from '../../../renderer/features/asrun/patternLayout.ts';
import { passingWords, seriesWords } from '../../../renderer/features/asrun/recordWords.ts';

const line = (position: string, time: string): AsRunLine => ({
  ...{ key: position, id: position, row: 1, state: 'conforming', findings: [], open: 0, accepted: 0 },
  ...{ callout: 'A', position, cycle: '1', pass: '', running: '', breakaway: '', final: '5 N·m', turns: '' },
  ...{ serial: '', time, finalNm: 5, runningNm: null, breakawayNm: null, seatingNm: 5, bandNm: { min: 4, max: 6 } },
  ...{ runningMaxNm: null, breakawayMinNm: null, cycleNumber: 1, reopened: false },
});
const four = ['1', '2', '3', '10'].map((position, at) => line(position, `2026-04-21 09:1${at}`));

it('draws known places to one scale both ways, x to the right and y up', () => {
  const pattern = '1: 0 mm, 0 mm; 2: 100 mm, 0 mm; 3: 100 mm, 50 mm; 10: 0 mm, 50 mm';
  const { positions, scale, why } = patternLayout({ lines: four, order: [], pattern }, 640);
  const [one, two, three] = positions;
  expect(why).toBeNull();
  expect((two?.px ?? 0) - (one?.px ?? 0)).toBeCloseTo(100 * (scale ?? 0), 9);
  expect((two?.py ?? 0) - (three?.py ?? 0)).toBeCloseTo(50 * (scale ?? 0), 9);
});

it('draws a ring and says why where nothing, too little or nonsense is said of the places', () => {
  const of = (pattern: string | null) => patternLayout({ lines: four, order: [], pattern }, 640);
  expect(of(null)).toMatchObject({ scale: null, why: expect.stringContaining('neither') });
  expect(of('1: 0 mm, 0 mm').why).toContain('no place for position 2, 3, 10');
  expect(of('a heap').why).toContain('is no pattern');
  expect(of(null).positions.map(({ position }) => position)).toEqual(['1', '2', '3', '10']);
});

it('tells the order asked for and the order recorded, and a position without a record', () => {
  const { positions } = patternLayout({ lines: four, order: ['1', '3', '2', '10', '7'], pattern: null }, 640);
  const told = new Map(positions.map((one) => [one.position, [one.asked, one.recorded, one.line !== null]]));
  expect(told.get('2')).toEqual([3, 2, true]);
  expect(told.get('7')).toEqual([5, null, false]);
  const undated = patternLayout({ lines: [...four, line('7', 'noon')], order: [], pattern: null }, 640);
  expect(undated.positions.every(({ recorded }) => recorded === null)).toBe(true);
});

it('says the forecast in words with its interval, or that it cannot know', () => {
  const passing = { why: '', likeliestCycle: 9, confidence: 0.95 };
  expect(passingWords({ ...passing, status: 'between', fromCycle: 7, toCycle: 14 }, 1)).toBe(
    'Under the minimum at cycle 9; 95 % between 7 and 14.',
  );
  expect(passingWords({ ...passing, status: 'not-before', fromCycle: 7, toCycle: null }, 1)).toMatch(
    /^Not under the minimum before cycle 7 \(95 %\); when, and whether at all, cannot be known\./,
  );
  const unknown = { ...passing, status: 'cannot-know', why: 'too few', fromCycle: null, toCycle: null } as const;
  expect(passingWords(unknown, 1)).toBe('Cannot know: too few.');
  expect(passingWords(unknown, null)).toContain('no least breakaway torque is held');
  expect(seriesWords(null, 2)).toContain('at least 3 cycles are needed');
});
