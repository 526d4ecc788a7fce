/** What stands beyond the contract: passes, order and tools; nothing of it fires where its columns are not given. */
import { describe, expect, it } from 'vitest';
import { calloutOf, judgedOf, recordOf, rulesOf, type Cells } from './judged.ts';

const at = (position: number, time: string, more: Cells = {}): Cells => recordOf({ position, time, ...more });

describe('the order of a pattern', () => {
  const ordered = calloutOf({ sequence: '1 3 2 4' });

  it('is kept by those who keep it, whatever the order of the lines', () => {
    const rows = [at(2, '10:03'), at(1, '10:01'), at(4, '10:04'), at(3, '10:02')];
    expect(rulesOf(judgedOf([ordered], rows))).toEqual([[], [], [], []]);
  });

  it('is broken by the position that came too soon', () => {
    const { rows } = judgedOf([ordered], [at(1, '10:01'), at(2, '10:02'), at(3, '10:03'), at(4, '10:04')]);
    expect(rows.map(({ findings }) => findings.map(({ rule }) => rule))).toEqual([[], ['out-of-sequence'], [], []]);
    expect(rows[1]?.decision).toBe('indeterminate');
    expect(rows[1]?.findings[0]?.message).toContain('before position 3 at 10:03');
  });

  it.each([
    ['1-3-2-4', (n: number) => String(n)],
    ['1, 3, 2, 4', (n: number) => String(n)],
    ['1 > 3 > 2 > 4', (n: number) => String(n)],
    ['P-1; P-3; P-2; P-4', (n: number) => `P-${n}`],
    [' P-1 P-3 P-2 P-4 ', (n: number) => `P-${n}`],
  ])('may be written "%s"', (sequence, name) => {
    const rows = [1, 2, 3, 4].map((n) => recordOf({ position: name(n), time: `10:0${n}` }));
    expect(rulesOf(judgedOf([calloutOf({ sequence })], rows))).toEqual([[], [['out-of-sequence', 'query']], [], []]);
  });

  it('is judged for each cycle and pass by itself', () => {
    const rows = [at(1, '10:01'), at(3, '10:02'), at(2, '10:03'), at(4, '10:04')];
    const second = rows.map((row) => ({ ...row, cycle: 2, time: '09:00' }));
    expect(rulesOf(judgedOf([ordered], [...rows, ...second])).flat()).toEqual([]);
  });

  it('tells a position without a record', () => {
    const found = rulesOf(judgedOf([ordered], [at(1, '10:01'), at(3, '10:02'), at(4, '10:04')]));
    expect(found).toEqual([[], [], [['position-missing', 'query']]]);
  });

  it('is not judged by times that cannot be compared, and says so', () => {
    const found = rulesOf(
      judgedOf([ordered], [at(1, '10:01'), at(3, 'later'), at(2, '2026-01-01 10:00'), at(4, '10:04')]),
    );
    expect(found).toEqual([[], [['sequence-not-judged', 'note']], [['sequence-not-judged', 'note']], []]);
  });

  it('is nobody’s where the callout gives none', () => {
    const rows = [at(1, '10:04'), at(2, '10:03'), at(3, '10:02'), at(4, '10:01')];
    expect(rulesOf(judgedOf([calloutOf()], rows))).toEqual([[], [], [], []]);
  });
});

describe('passes', () => {
  const inPasses = calloutOf({ passes: '20-25 N·m; 35-40 N·m; 50-58 N·m' });
  const pass = (number: number, final: string, more: Cells = {}) => recordOf({ pass: number, final, ...more });

  it('are each held against their own band', () => {
    expect(rulesOf(judgedOf([inPasses], [pass(1, '22 N·m'), pass(2, '38 N·m'), pass(3, '55 N·m')]))).toEqual([
      [],
      [],
      [],
    ]);
    expect(rulesOf(judgedOf([inPasses], [pass(1, '30 N·m'), pass(2, '38 N·m'), pass(3, '59 N·m')]))).toEqual([
      [['pass-outside-band', 'query']],
      [],
      [['final-outside-callout', 'reject']],
    ]);
  });

  it('are all held against the callout where it lists none, as the contract has it', () => {
    expect(rulesOf(judgedOf([calloutOf()], [pass(1, '22 N·m'), pass(2, '55 N·m')]))).toEqual([
      [['final-outside-callout', 'reject']],
      [],
    ]);
  });

  it('that are missing are told on the last', () => {
    expect(rulesOf(judgedOf([inPasses], [pass(1, '22 N·m'), pass(3, '55 N·m')]))).toEqual([
      [],
      [['pass-missing', 'query']],
    ]);
  });

  it('out of order are a query where the callout lists them, else a note', () => {
    const rows = [pass(1, '54 N·m', { time: '10:02' }), pass(2, '54 N·m', { time: '10:01' })];
    const result = judgedOf([calloutOf()], rows);
    expect(rulesOf(result)).toEqual([[], [['pass-out-of-order', 'note']]]);
    expect(result.summary.conforming).toBe(2);
    const listed = rulesOf(judgedOf([calloutOf({ passes: '54 N·m; 50-58 N·m' })], rows));
    expect(listed).toEqual([[], [['pass-out-of-order', 'query']]]);
  });
});

describe('tools', () => {
  const on = (position: number, day: string, serial: string): Cells =>
    recordOf({ position, time: `${day} 10:00`, serial });
  const rows = [
    on(1, '2026-03-01', 'S1'),
    on(2, '2026-03-02', 'S1'),
    on(3, '2026-03-03', 'S1'),
    on(4, '2026-03-03', 'S2'),
  ];

  it('found out re-open every value since they were last known to be right', () => {
    const tools = [{ serial: 'S1', lastGood: '2026-03-01', foundOut: '2026-05-01' }, { serial: 'S2' }];
    const result = judgedOf([calloutOf()], rows, { tools });
    expect(rulesOf(result)).toEqual([[], [['tool-found-out', 'query']], [['tool-found-out', 'query']], []]);
    expect(result.reopened).toEqual([
      { serial: 'S1', lastGood: '2026-03-01', foundOut: '2026-05-01', rows: ['C / 2 / 1', 'C / 3 / 1'] },
    ]);
  });

  it('found out re-open everything where no day is known on which they were right, and values without a day', () => {
    const all = judgedOf([calloutOf()], rows, {
      tools: [
        { serial: 'S1', foundOut: '2026-05-01' },
        { serial: 'S2', foundOut: '' },
      ],
    });
    expect(all.reopened?.[0]?.rows).toHaveLength(3);
    const undated = [recordOf({ serial: 'S1' })];
    const tools = [{ serial: 'S1', lastGood: '2026-03-01', foundOut: '2026-05-01' }];
    expect(rulesOf(judgedOf([calloutOf()], undated, { tools }))).toEqual([[['tool-found-out', 'query']]]);
  });

  it('are overdue the day after their calibration ran out', () => {
    const tools = [
      { serial: 'S1', calibrationDue: '2026-03-02' },
      { serial: 'S2', calibrationDue: '2027-01-01' },
    ];
    expect(rulesOf(judgedOf([calloutOf()], rows, { tools }))).toEqual([[], [], [['tool-overdue', 'query']], []]);
  });

  it('that the list does not have, or that no one wrote down, cannot be traced', () => {
    const found = rulesOf(
      judgedOf([calloutOf()], [on(1, '2026-03-01', 'S9'), recordOf({ position: 2 })], { tools: [{ serial: 'S1' }] }),
    );
    expect(found).toEqual([[['tool-not-traced', 'query']], [['tool-not-traced', 'query']]]);
  });

  it('are nobody’s where no list is given', () => {
    const result = judgedOf([calloutOf()], rows);
    expect(rulesOf(result).flat()).toEqual([]);
    expect(result).not.toHaveProperty('reopened');
  });

  it.each([
    [{ serial: '', foundOut: '2026-03-01' }, 'serial', 'missing-field'],
    [{ serial: 'S1', foundOut: '1/2/26' }, 'foundOut', 'wrong-shape'],
    [{ serial: 'S1', foundOut: '2026-02-30' }, 'foundOut', 'wrong-shape'],
    [{ serial: 'S1', lastGood: '2026-03-02', foundOut: '2026-03-01' }, 'lastGood', 'contradiction'],
  ])('are refused as %j', (tool, field, code) => {
    expect(() => judgedOf([calloutOf()], rows, { tools: [tool] })).toThrow(
      expect.objectContaining({ refusal: expect.objectContaining({ file: 'tools.csv', row: 2, field, code }) }),
    );
  });
});
