/** The chart of a fastener pattern: to scale where the pattern is known, a ring that says so where it is not; where its words come from. */
import { expect, it } from 'vitest';
import type { AsRunLine } from '../../../shared-types/inspection.ts';
import { patternLayout, patternWidthPx } from '../../../renderer/features/asrun/patternLayout.ts';
import type { DrawnPosition } from '../../../renderer/features/asrun/patternLayout.ts';
import { numberText } from '../../../renderer/features/asrun/patternNumbers.ts';
import { patternOf } from '../../../renderer/features/asrun/patternOf.ts';
import { patternStates, positionsText, statesText } from '../../../renderer/features/asrun/patternStates.ts';
import type { Interface } from '../../../shared-types/records/site.ts';
import type { TaskStep } from '../../../shared-types/records/task.ts';
import { textWidthPx } from '../../../renderer/components/StackDrawing/labels.ts';
import { passingWords, seriesWords } from '../../../renderer/features/asrun/recordWords.ts';

const line = (position: string, time: string): AsRunLine => ({
  ...{ key: position, id: position, row: 1, state: 'conforming', findings: [], open: 0, accepted: 0 },
  ...{ callout: 'A', position, cycle: '1', pass: '', running: '', breakaway: '', final: '5 N·m', turns: '' },
  ...{ serial: '', time, finalNm: 5, runningNm: null, breakawayNm: null, seatingNm: 5, bandNm: { min: 4, max: 6 } },
  ...{ runningMaxNm: null, breakawayMinNm: null, cycleNumber: 1, reopened: false },
});
const said = (text: string) => ({ text, from: 'interface A' });
const four = ['1', '2', '3', '10'].map((position, at) => line(position, `2026-04-21 09:1${at}`));

it('draws known places to one scale both ways, x to the right and y up', () => {
  const pattern = said('1: 0 mm, 0 mm; 2: 100 mm, 0 mm; 3: 100 mm, 50 mm; 10: 0 mm, 50 mm');
  const { positions, scale, why } = patternLayout({ lines: four, order: [], pattern }, 640);
  const [one, two, three] = positions;
  expect(why).toBeNull();
  expect((two?.px ?? 0) - (one?.px ?? 0)).toBeCloseTo(100 * (scale ?? 0), 9);
  expect((two?.py ?? 0) - (three?.py ?? 0)).toBeCloseTo(50 * (scale ?? 0), 9);
});

it('divides a circle among all its positions, whichever of them are recorded', () => {
  const [first, second] = four;
  const lines = [first, second].flatMap((one) => one ?? []);
  const drawn = (count?: number) =>
    patternLayout(
      { lines, order: [], pattern: { ...said('circle 100 mm'), ...(count === undefined ? {} : { count }) } },
      640,
    );
  expect(drawn(4).positions.map(({ position, line: of }) => [position, of !== null])).toEqual([
    ['1', true],
    ['2', true],
    ['3', false],
    ['4', false],
  ]);
  expect(drawn().positions).toHaveLength(2);
  // Position 10 is none of four: the circle is divided among what there is.
  expect(
    patternLayout({ lines: four, order: [], pattern: { ...said('circle 100 mm'), count: 4 } }, 640).why,
  ).toBeNull();
});

it('draws a ring and says why where nothing, too little or nonsense is said of the places', () => {
  const of = (text: string | null) =>
    patternLayout({ lines: four, order: [], pattern: text === null ? null : said(text) }, 640);
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

/** What stands over what, of marks and numbers. */
function overlaps(positions: readonly DrawnPosition[], radiusPx: number): string[] {
  const found: string[] = [];
  for (const [at, one] of positions.entries()) {
    for (const other of positions.slice(at + 1))
      if (Math.hypot(one.px - other.px, one.py - other.py) < 2 * radiusPx)
        found.push(`marks ${one.position} and ${other.position}`);
    if (one.number === null) continue;
    const { px, py } = one.number;
    const half = textWidthPx(numberText(one.position), 12) / 2;
    for (const other of positions) {
      const [dx, dy] = [Math.abs(other.px - px), Math.abs(other.py - py)];
      if (dx < half + radiusPx - 1e-6 && dy < 7 + radiusPx - 1e-6)
        found.push(`number ${one.position} and mark ${other.position}`);
      if (other === one || other.number === null) continue;
      const both = half + textWidthPx(numberText(other.position), 12) / 2;
      if (Math.abs(other.number.px - px) < both - 1e-6 && Math.abs(other.number.py - py) < 14 - 1e-6)
        found.push(`numbers ${one.position} and ${other.position}`);
    }
  }
  return found;
}

const grid = (columns: number, rows: number, apartMm: number): string =>
  Array.from({ length: columns * rows }, (_, at) => {
    const [x, y] = [(at % columns) * apartMm, Math.floor(at / columns) * apartMm];
    return `${at + 1}: ${x} mm, ${y} mm`;
  }).join('; ');

const many = (count: number) => Array.from({ length: count }, (_, at) => line(String(at + 1), ''));

it.each([
  ['25 on a circle', 25, 'circle 300 mm'],
  ['48 on a circle', 48, 'circle 30 in from 10 deg'],
  ['64 on a circle', 64, 'circle 1200 mm'],
  ['96 on a circle', 96, 'circle 2 m'],
  ['64 in a square', 64, grid(8, 8, 40)],
  ['64 in a long row', 64, grid(32, 2, 25)],
  ['64 in a tall row', 64, grid(2, 32, 25)],
  ['64 nobody says the places of', 64, null],
])('draws %s with every number beside its mark, and none over another', (_, count, text) => {
  const data = { lines: many(count), order: [], pattern: text === null ? null : said(text) };
  const widthPx = patternWidthPx(data, 520);
  expect(widthPx).not.toBeNull();
  for (const wide of [widthPx ?? 0, (widthPx ?? 0) + 130]) {
    const { positions, size, scale, heightPx } = patternLayout(data, wide);
    expect(positions).toHaveLength(count);
    expect(scale === null).toBe(text === null);
    if (size === 'marks') expect(positions.filter(({ number }) => number === null)).toEqual([]);
    expect(overlaps(positions, size === 'marks' ? 10 : 21)).toEqual([]);
    for (const { px, py } of positions) {
      expect(px).toBeGreaterThanOrEqual(10);
      expect(px).toBeLessThanOrEqual(wide - 10);
      expect(py).toBeGreaterThanOrEqual(10);
      expect(py).toBeLessThanOrEqual(heightPx - 10);
    }
  }
});

it('is no chart where two positions lie on each other, or so near that it would be wider than anybody scrolls', () => {
  const of = (text: string, count: number) =>
    patternWidthPx({ lines: many(count), order: [], pattern: said(text) }, 520);
  expect(of('1: 0 mm, 0 mm; 2: 0 mm, 0 mm', 2)).toBeNull();
  expect(of('1: 0 mm, 0 mm; 2: 1 mm, 0 mm; 3: 900 mm, 0 mm', 3)).toBeNull();
});

it('lists positions under the words of their state, the worst first, runs of numbers drawn together', () => {
  const lines = many(12).map((one, at) => (at === 6 ? { ...one, state: 'nonconforming' as const } : one));
  const positions = [...lines.map((one) => ({ position: one.position, line: one })), { position: '13', line: null }];
  expect(patternStates(positions).map(({ words, positions: of }) => [words, positionsText(of)])).toEqual([
    ['Nonconforming', '7'],
    ['No record', '13'],
    ['Conforming', '1–6, 8–12'],
  ]);
  expect(statesText(patternStates(positions))).toContain('Conforming (11): 1–6, 8–12');
  expect(positionsText(['1', '2', 'A', 'B', '9', '10', '11'])).toBe('1, 2, A, B, 9–11');
});

const place = (id: string, code: string, more: Partial<Interface> = {}): [string, Interface] => [
  id,
  { id, rev: 1, site: 'mast', code, kind: 'fastener', count: 6, pattern: `circle ${code} mm`, ...more },
];
const known = {
  site: 'mast',
  interfaces: new Map([
    place('i-1', '100', { name: 'Upper flange' }),
    place('i-2', '200'),
    place('i-3', '300', { pattern: '' }),
    place('i-4', '200', { site: 'elsewhere', pattern: 'circle 999 mm' }),
    place('i-5', '500', { site: 'elsewhere' }),
  ]),
  steps: [
    {
      ...{ id: 's-1', rev: 1, task: 't', position: 0, outing: 'o', role: 'r', action: 'tighten' },
      code: 'b3',
      interface: 'i-1',
    },
    {
      ...{ id: 's-2', rev: 1, task: 't', position: 1, outing: 'o', role: 'r', action: 'tighten' },
      code: 'b4',
      interface: 'i-2',
      name: 'Clamp the hub',
    },
    {
      ...{ id: 's-3', rev: 1, task: 't', position: 2, outing: 'o', role: 'r', action: 'tighten' },
      code: 'b5',
      interface: 'i-3',
    },
  ] as TaskStep[],
};

it.each([
  ['the callout’s own words', {}, { id: 'b3', pattern: 'circle 7 mm' }, 'circle 7 mm'],
  ['the interface the record names', { interface: '200', step: 'b3' }, { id: 'b3' }, 'circle 200 mm'],
  ['the same by its name', { Interface: 'upper FLANGE' }, { id: 'x' }, 'circle 100 mm'],
  ['the step the record names', { step: 'b4' }, { id: 'b3' }, 'circle 200 mm'],
  ['the interface the callout names', {}, { id: 'x', interface: '100' }, 'circle 100 mm'],
  ['the step the callout names', {}, { id: 'x', step: 'Clamp the hub' }, 'circle 200 mm'],
  ['the step of the callout’s id', {}, { id: 'b3' }, 'circle 100 mm'],
  ['an interface of the callout’s id', {}, { id: '200' }, 'circle 200 mm'],
  ['an interface of another site, where there is one alone', { interface: '500' }, { id: 'x' }, 'circle 500 mm'],
  ['nothing, where the interface says none', {}, { id: 'b5' }, null],
  ['nothing, where nothing is named', {}, { id: 'x' }, null],
])('takes the pattern from %s', (_, cells, callout, text) => {
  expect(patternOf({ cells: { callout: callout.id, ...cells }, callout }, known)?.text ?? null).toBe(text);
});

it('says whose pattern it is, and finds it without the callout’s row too', () => {
  expect(patternOf({ cells: { callout: 'b3' }, callout: {} }, known)?.from).toBe('interface 100, by step b3');
});
