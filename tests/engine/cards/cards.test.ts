import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cardsOf, gravestFirst, linesMost, type Card, type CardLine } from '../../../renderer/engine/cards/index.ts';
import { passSetting } from '../../../renderer/engine/cards/passSetting.ts';
import { gripForceN } from '../../../renderer/engine/turning/index.ts';
import { cardPlan, cardSource, type CardCase } from './cardTask.ts';

const anyRoom = { most: 1, of: () => 0 };

function cards(wanted: CardCase = {}): Card[] {
  return cardsOf({ ...cardSource(wanted), room: anyRoom });
}

const linesOf = (all: readonly Card[]): CardLine[] => all.flatMap(({ parts }) => parts.flatMap(({ lines }) => lines));

function stepOf(all: readonly Card[], id: string) {
  const found = all.flatMap(({ parts }) => parts).find(({ step }) => step.id === id)?.step;
  if (found === undefined) throw new Error(`no card has step ${id}`);
  return found;
}

const text = (line: CardLine): string =>
  line.value.kind === 'set' ? `${line.value.number} ${line.value.unit} ${line.value.beside}` : line.value.text;

const lineOf = (id: string, kind: CardLine['kind'], wanted: CardCase = {}): CardLine => {
  const line = stepOf(cards(wanted), id).lines.find((one) => one.kind === kind);
  if (line === undefined) throw new Error(`step ${id} has no line ${kind}`);
  return line;
};

describe('a line of a card', () => {
  test('states what is reached, where, on how many pieces, and a value or that there is none (H1)', () => {
    const lines = linesOf(cards());
    expect(lines.length).toBeGreaterThan(15);
    for (const line of lines) {
      expect(line.reach.length, JSON.stringify(line)).toBeGreaterThan(3);
      expect(line.reach).not.toMatch(/^(?:check(?:ed)?|ok|done|verified)\W*$/i);
      expect(line.where).not.toBe('');
      expect(line.count).toMatch(/\d|no loose piece/);
      expect(text(line)).not.toBe('');
    }
  });

  test('has the setting in the tool’s own unit, the authority’s beside it, and says which is the authority', () => {
    const final = lineOf('final', 'final');
    expect(final.value).toEqual({ kind: 'set', number: '45', unit: 'N·m', beside: '(33.19 lbf·ft)' });
    expect(stepOf(cards(), 'final').notes).toContain(
      'The callout is the authority, in lbf·ft; the tool is set in N·m.',
    );
  });

  test('has the hand’s force at the grip, torque ÷ lever', () => {
    // 45 N·m on 0.3 m; 1 lbf is 4.448 N.
    expect(lineOf('final', 'final').reach).toContain('hand 150 N (34 lbf) at its grip');
    expect(gripForceN({ torqueNm: 45, leverMm: 300 })).toBeCloseTo(150, 12);
    expect(() => gripForceN({ torqueNm: 45, leverMm: 0 })).toThrow(/lever must be above 0/);
  });

  test('holds the value read against the callout with the running torque added', () => {
    // 30 lbf·ft and 14 lbf·in; 35 lbf·ft and 10 lbf·in: 31.17 to 35.83 lbf·ft, inward.
    expect(text(lineOf('final', 'read', { units: 'as-written' }))).toBe('31.2–35.8 lbf·ft');
    expect(text(lineOf('final', 'stop', { units: 'as-written' }))).toBe('35.8 lbf·ft');
  });

  test('says turns, strokes and the running torque to expect, with its limits and their document', () => {
    const run = lineOf('final', 'run');
    expect(run.reach).toContain('18 turns, 108 strokes');
    expect(run.reach).toContain('Running torque expected 10–14 lbf·in');
    const notes = stepOf(cards({ units: 'as-written' }), 'final').notes.join('\n');
    // MIL-DTL-45916C, Table I, row 0.3750-24.
    expect(notes).toMatch(/greatest locking torque, any cycle 80 lbf·in; .* 9\.5 lbf·in: MIL-DTL-45916C/);
  });

  test('says where to stop when loosening, and the weakest part', () => {
    const stop = lineOf('release', 'stop', { units: 'as-written' });
    expect(stop.reach).toContain('Weakest is S');
    expect(text(stop)).toBe('60.0 lbf·ft');
  });

  test('follows pieces: taken, left, brought back', () => {
    expect(lineOf('final', 'take')).toMatchObject({ where: 'from Lead’s bag', count: '2 pieces' });
    expect(lineOf('final', 'back').reach).toBe('Back in the bag: T, S');
    expect(lineOf('release', 'move')).toMatchObject({ where: 'from its hole to mast foot', count: '4 pieces' });
    expect(lineOf('use', 'gear')).toMatchObject({ count: '2 pieces' });
    expect(lineOf('use', 'move').reach).toContain('left at mast foot');
  });
});

describe('passes', () => {
  const tool = [...cardPlan({}).tools.values()].find(({ torque }) => torque !== null);
  if (tool === undefined) throw new Error('the plan has no torque tool');
  const final = { value: 45, unit: 'N·m' };

  test('are set on the highest mark that is not above them, the last as the final setting', () => {
    expect(passSetting('50 %', final, tool, 0)).toEqual({ setting: { value: 22, unit: 'N·m' }, isFinal: false });
    // 30 lbf·ft are 40.67 N·m.
    expect(passSetting('30 lbf·ft', final, tool, 0)).toEqual({ setting: { value: 40, unit: 'N·m' }, isFinal: false });
    expect(passSetting('100 %', final, tool, 0)).toEqual({ setting: final, isFinal: true });
    expect(passSetting('44.99999999999 N·m', final, tool, 0)).toMatchObject({ isFinal: true });
  });

  test('that the tool cannot be set to are not set', () => {
    expect(passSetting('20 %', final, tool, 0)).toEqual({ reason: 'T has no setting as low as 20 %' });
    expect(passSetting('50 %', final, tool, 0.5)).toEqual({ reason: 'T has no setting as low as 50 %' });
    expect(passSetting('half', final, tool, 0)).toEqual({ reason: '“half” is neither a share nor a torque' });
    const low = stepOf(cards({ passes: ['20 %'] }), 'final');
    expect(low.lines.filter(({ kind }) => kind === 'pass').map(text)).toEqual(['no setting here']);
  });
});

test('turns as the worker sees it: a left-hand thread, loosening and a view from behind each turn it', () => {
  const turnOf = (id: string, wanted: CardCase = {}) => stepOf(cards(wanted), id).turn?.turn;
  expect(turnOf('final')).toBe('clockwise');
  expect(turnOf('final', { hand: 'left' })).toBe('counterclockwise');
  expect(turnOf('final', { mirrored: true })).toBe('counterclockwise');
  expect(turnOf('final', { hand: 'left', mirrored: true })).toBe('clockwise');
  expect(turnOf('release')).toBe('counterclockwise');
  expect(turnOf('release', { hand: 'left' })).toBe('clockwise');
  expect(stepOf(cards({ hand: 'left', mirrored: true }), 'final').turn?.because).toEqual([
    'left-hand thread',
    'seen mirrored, from behind',
  ]);
});

test('a step out of reach has its closest fits and no setting anywhere', () => {
  const deep = stepOf(cards(), 'deep');
  expect(deep.state).toBe('not-reached');
  expect(deep.closest.map(({ stack }) => stack)).toEqual([['T', 'S']]);
  expect(deep.stack).toEqual([]);
  expect(deep.lines.every(({ value }) => value.kind === 'words')).toBe(true);
  expect(deep.lines[0]?.reach).toContain('No stack of this stock reaches.');
  expect(stepOf(cards(), 'lower').state).toBe('by-hand');
});

test('an outing without a bag has no settings', () => {
  const source = cardSource();
  const all = cardsOf({ ...source, result: { ...source.result, outings: [], infeasible: [] }, room: anyRoom });
  expect(stepOf(all, 'final').state).toBe('no-bag');
  expect(linesOf(all).filter(({ value }) => value.kind !== 'words')).toEqual([]);
});

test('cautions stand before the step, the gravest first, watch-outs after them', () => {
  expect(stepOf(cards(), 'final').notices.map(({ word }) => word)).toEqual(['WARNING', 'NOTICE', 'Watch-out']);
  const words = ['NOTICE', 'CAUTION', 'DANGER', 'WARNING'] as const;
  expect(gravestFirst(words.map((word) => ({ word, text: 'x' }))).map(({ word }) => word)).toEqual([
    'DANGER',
    'WARNING',
    'CAUTION',
    'NOTICE',
  ]);
  expect(stepOf(cards(), 'use').notices).toEqual([{ word: 'Watch-out', text: 'Carried: the cap’s pin is loose.' }]);
});

describe('boxes', () => {
  const boxesOf = (id: string, wanted: CardCase = {}) => {
    const { boxes } = stepOf(cards(wanted), id);
    if (boxes === null) throw new Error(`step ${id} has no boxes`);
    return boxes;
  };

  test('one for each position and value', () => {
    expect(boxesOf('final').order).toHaveLength(12);
    expect(boxesOf('final').columns.map(({ name, unit }) => `${name} ${unit}`)).toEqual([
      'Running lbf·in',
      'Turns ',
      'Pass 1 N·m',
      'Pass 2 N·m',
      'Final N·m',
    ]);
    expect(boxesOf('release').order.toSorted()).toEqual(['1', '2', '3', '8']);
  });

  test('stand in the interface’s own order, else in one that is proposed and said to be', () => {
    const own = ['12', '11', '10', '9', '8', '7', '6', '5', '4', '3', '2', '1'];
    expect(boxesOf('final', { order: own })).toMatchObject({ order: own, orderFrom: 'The interface’s own order.' });
    expect(boxesOf('final').order.slice(0, 2)).toEqual(['1', '7']);
    expect(boxesOf('final').orderFrom).toMatch(/^Proposed/);
    // An order that lacks a position is none, and no other is put in its place: that is said before the step.
    const faulty = { order: own.slice(1) };
    expect(boxesOf('final', faulty)).toMatchObject({
      order: ['1', '2', '3', '4', '5', '6', '7', '8', '9', '10', '11', '12'],
      orderFrom: null,
      orderFault: `lacks position ${own[0]}`,
    });
    const step = stepOf(cards(faulty), 'final');
    expect(step.notices.filter(({ word }) => word === 'Not used')).toEqual([
      {
        word: 'Not used',
        text: `The order of tightening kept for B1, azimuth flange lacks position ${own[0]}. Mend it in Sites, or follow the procedure’s own order.`,
      },
    ]);
    expect(step.lines.map(({ reach }) => reach).join(' ')).not.toMatch(/in order/);
    // Of some positions only their part of it counts; a name that is none of them is a fault all the same.
    expect(boxesOf('release', { order: own.slice(1) }).orderFault).toBe(own[0] === '1' ? 'lacks position 1' : null);
    expect(boxesOf('final', { order: [...own, '13'] }).orderFault).toBe('has 13, no position of this interface');
    expect(boxesOf('final', { order: [...own, own[2] ?? ''] }).orderFault).toBe(
      `has position ${own[2]} more than once`,
    );
    // Positions have the names that the pattern gives them.
    const named = { count: 3, pattern: 'A: 0 mm, 0 mm; B: 40 mm, 0 mm; C: 80 mm, 0 mm', order: ['A', 'C', 'B'] };
    expect(boxesOf('final', named)).toMatchObject({ order: ['A', 'C', 'B'], orderFault: null });
    expect(boxesOf('final', { pattern: 'no pattern' })).toMatchObject({ orderFrom: null, points: null });
  });

  test('are drawn as the worker sees them', () => {
    const x = (wanted: CardCase) => boxesOf('final', wanted).points?.find(({ position }) => position === '4')?.xMm;
    expect(x({})).toBeCloseTo(76.2, 6);
    expect(x({ mirrored: true })).toBeCloseTo(-76.2, 6);
  });
});

test('no card has more than ten lines or two drawings, and every line stands on one, in order (H2)', () => {
  const source = cardSource({ passes: Array.from({ length: 20 }, (_, index) => `${40 + index * 3} %`) });
  const room = fc.record({ most: fc.integer({ min: 1, max: 60 }), perLine: fc.integer({ min: 1, max: 12 }) });
  fc.assert(
    fc.property(room, ({ most, perLine }) => {
      const of = (parts: readonly { lines: readonly unknown[] }[]): number =>
        parts.reduce((sum, { lines }) => sum + lines.length * perLine, 3);
      const all = cardsOf({ ...source, room: { most, of } });
      for (const { lineCount, parts } of all) {
        expect(lineCount).toBeLessThanOrEqual(linesMost);
        expect(lineCount).toBeGreaterThan(0);
        expect(lineCount === 1 || of(parts) <= most).toBe(true);
        expect(
          new Set(parts.flatMap(({ step }) => (step.stack.length > 0 ? [step.stack.join()] : []))).size,
        ).toBeLessThan(2);
      }
      const whole = cardsOf({ ...source, room: anyRoom });
      expect(linesOf(all)).toEqual(linesOf(whole));
      expect(all.filter(({ boxes }) => boxes !== null)).toHaveLength(2);
    }),
    { numRuns: 60, seed: 7 },
  );
  expect(linesOf(cardsOf({ ...source, room: anyRoom })).length).toBeGreaterThan(25);
});

test('cards of one role are that role’s alone, and its time is the sum of its steps', () => {
  const base = cardsOf({ ...cardSource(), role: 'Base', room: anyRoom });
  expect(base.every(({ role }) => role === 'Base')).toBe(true);
  expect(base.flatMap(({ parts }) => parts.map(({ step }) => step.id))).toEqual(['lower', 'deep']);
  expect(base.reduce((sum, { minutes }) => sum + minutes, 0)).toBe(9);
});
