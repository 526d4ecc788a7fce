import { describe, expect, it } from 'vitest';
import { calloutOf, judgedOf, recordOf, rulesOf, type Cells } from './judged.ts';

const row = (callout: Cells, record: Cells) => {
  const result = judgedOf([calloutOf(callout)], [recordOf(record)]);
  return { decision: result.rows[0]?.decision, rules: rulesOf(result)[0], finding: result.rows[0]?.findings[0] };
};

describe('a callout that does not say whether running torque is in it', () => {
  const blank = { runningIncluded: '' };

  it.each([
    ['final and what seats both inside', { final: '56 N·m', running: '2 N·m' }, 'conforming', []],
    [
      'final alone inside',
      { final: '51 N·m', running: '2 N·m' },
      'indeterminate',
      [['seating-outside-callout', 'query']],
    ],
    [
      'seating alone inside',
      { final: '59 N·m', running: '2 N·m' },
      'indeterminate',
      [['final-outside-callout', 'query']],
    ],
    [
      'neither inside',
      { final: '62 N·m', running: '2 N·m' },
      'nonconforming',
      [
        ['final-outside-callout', 'reject'],
        ['seating-outside-callout', 'reject'],
      ],
    ],
    ['no running torque', { final: '55 N·m' }, 'indeterminate', [['running-missing', 'query']]],
    [
      'no running torque, final outside',
      { final: '62 N·m' },
      'indeterminate',
      [
        ['running-missing', 'query'],
        ['final-outside-callout', 'query'],
      ],
    ],
    ['a running torque of 0', { final: '50 N·m', running: '0 N·m' }, 'conforming', []],
  ])('%s', (_, record, decision, rules) => {
    expect(row(blank, record)).toMatchObject({ decision, rules });
  });
});

describe('a torque the tool was set to', () => {
  it('is one query, whatever the callout says of running torque', () => {
    for (const runningIncluded of ['yes', 'no', ''])
      expect(row({ runningIncluded }, { method: 'set' }).rules).toEqual([['set-not-read', 'query']]);
  });

  it('is rejected where it was set outside, and a query all the same', () => {
    expect(row({}, { method: 'set', final: '59 N·m' }).rules).toEqual([
      ['final-outside-callout', 'reject'],
      ['set-not-read', 'query'],
    ]);
  });

  it('leaves running and breakaway torque judged, which were read', () => {
    expect(row({ runningMax: '2 N·m' }, { method: 'set', running: '3 N·m' })).toMatchObject({
      decision: 'nonconforming',
      rules: [
        ['set-not-read', 'query'],
        ['running-over-limit', 'reject'],
      ],
    });
  });
});

describe('the words of a finding', () => {
  it('give value, limit and how far it is off, in the unit of the callout', () => {
    expect(row({}, { final: '62 N·m' }).finding?.message).toBe(
      'The final torque of 62 N·m is 4 N·m over the greatest of 58 N·m of the callout.',
    );
    const inch = { torqueMin: '50 lbf·in', torqueMax: '70 lbf·in', runningIncluded: 'no', thread: '1/4-28' };
    expect(row(inch, { final: '60 lbf·in', running: '12 lbf·in' }).finding).toMatchObject({
      message:
        'The seating torque of 48 lbf·in (final 60 lbf·in less running 12 lbf·in) is 2 lbf·in under the least of 50 lbf·in of the callout.',
      unit: 'N·m',
      value: expect.closeTo(48 * 0.1129848290276167, 12),
      limit: expect.closeTo(50 * 0.1129848290276167, 12),
    });
  });
});

describe('the stricter limit governs', () => {
  const military = { thread: '1/4-28', torqueMin: '50 lbf·in', torqueMax: '70 lbf·in', locking: 'MIL-DTL-45916C' };
  const record = { final: '60 lbf·in' };

  it.each([
    // MIL-DTL-45916C prints at most 30 and at least 3.5 lbf·in for 0.250-28.
    [{ runningMax: '20 lbf·in' }, { running: '25 lbf·in' }, '20 lbf·in by the callout'],
    [{ runningMax: '40 lbf·in' }, { running: '35 lbf·in' }, '30 lbf·in by MIL-DTL-45916C'],
    [{ breakawayMin: '5 lbf·in' }, { breakaway: '4 lbf·in' }, '5 lbf·in by the callout'],
    [{ breakawayMin: '2 lbf·in' }, { breakaway: '3 lbf·in' }, '3.5 lbf·in by MIL-DTL-45916C'],
  ])('%j of the callout with %j', (own, read, by) => {
    const { finding, decision } = row({ ...military, ...own }, { ...record, ...read });
    expect(decision).toBe('nonconforming');
    expect(finding?.message).toContain(by);
  });

  it('says where the named document has no value, and judges nothing by it', () => {
    const { rules, finding, decision } = row(
      { locking: 'ISO 2320', thread: 'M10x1' },
      { running: '40 N·m', breakaway: '0 N·m' },
    );
    expect(decision).toBe('conforming');
    expect(rules).toEqual([['no-published-value', 'note']]);
    expect(finding?.message).toContain('ISO 2320');
    expect(row({ locking: 'ISO 2320', thread: 'M10x1' }, {}).rules).toEqual([]);
  });
});

describe('ISO 2320 prints 1.5 N·m for the first removal of M10 and 1 N·m for the fifth', () => {
  it.each([
    [1, '1.5 N·m', []],
    [1, '1.49 N·m', [['breakaway-under-limit', 'reject']]],
    [2, '1.49 N·m', [['breakaway-under-limit', 'query']]],
    [4, '1 N·m', [['breakaway-under-limit', 'query']]],
    [4, '0.99 N·m', [['breakaway-under-limit', 'reject']]],
    [5, '1 N·m', []],
    [5, '0.99 N·m', [['breakaway-under-limit', 'reject']]],
    [9, '1 N·m', []],
  ])('cycle %i with %s', (cycle, breakaway, rules) => {
    expect(row({ locking: 'ISO 2320' }, { cycle, breakaway }).rules).toEqual(rules);
  });

  it('and 10.5 N·m at most while it runs on', () => {
    expect(row({ locking: 'ISO 2320' }, { running: '10.5 N·m' }).rules).toEqual([]);
    expect(row({ locking: 'ISO 2320' }, { running: '10.6 N·m' }).rules).toEqual([['running-over-limit', 'reject']]);
  });
});

describe('a document that prints a torque for nuts used again alone', () => {
  // FAA AC 43.13-1B Table 7-2, row 7/16-20: 8 lbf·in.
  const faa = { thread: '7/16-20', torqueMin: '450 lbf·in', torqueMax: '500 lbf·in', locking: 'FAA AC 43.13-1B' };

  it('is a query from the second cycle on', () => {
    const record = { final: '470 lbf·in', running: '7.9 lbf·in' };
    // It prints no greatest running torque, which is said of every reading.
    const note = ['no-published-value', 'note'];
    expect(row(faa, { ...record, cycle: 1 }).rules).toEqual([note]);
    expect(row(faa, { ...record, cycle: 2 }).rules).toEqual([['reuse-under-minimum', 'query'], note]);
    expect(row(faa, { ...record, cycle: 2, running: '8 lbf·in' }).rules).toEqual([note]);
  });
});

describe('the pattern of turns', () => {
  const turned = (turns: readonly (string | number)[], more: (index: number) => Cells = () => ({})) =>
    rulesOf(
      judgedOf(
        [calloutOf()],
        turns.map((turn, index) => recordOf({ position: index + 1, turns: turn, ...more(index) })),
      ),
    );

  it('needs four positions', () => {
    expect(turned([3, 3, 9])).toEqual([[], [], []]);
    expect(turned([3, 3, 3, 9])[3]).toEqual([['turns-off-pattern', 'query']]);
    expect(turned([3, 3, '', 9])).toEqual([[], [], [], []]);
  });

  it('is one for each cycle and pass', () => {
    expect(turned([3, 3, 3, 9], (index) => ({ cycle: index === 3 ? 2 : 1 }))).toEqual([[], [], [], []]);
    expect(turned([3, 3, 3, 9], (index) => ({ pass: index === 3 ? 2 : 1 }))).toEqual([[], [], [], []]);
    expect(turned([3, 3, 3, 9], () => ({ pass: 2, cycle: 7 }))[3]).toEqual([['turns-off-pattern', 'query']]);
  });

  it('reads turns as a number or an angle', () => {
    expect(turned([3, '1080 deg', '3 rev', '9 rev'])).toEqual([[], [], [], [['turns-off-pattern', 'query']]]);
  });
});

describe('a turn after the snug torque', () => {
  const turning = { angle: '60-70 deg' };

  it.each([
    [{ angle: '60 deg' }, []],
    [{ angle: '70 deg' }, []],
    [{ angle: '0.25 rev' }, [['angle-outside-callout', 'query']]],
    [{ angle: '59.9 deg' }, [['angle-outside-callout', 'query']]],
    [{}, [['angle-missing', 'query']]],
  ])('%j', (read, rules) => {
    expect(row(turning, read).rules).toEqual(rules);
  });

  it('is not asked of a callout without one, nor of a pass before the last', () => {
    expect(row({}, { angle: '400 deg' }).rules).toEqual([]);
    expect(row({ ...turning, passes: '20-25 N·m; 50-58 N·m' }, { pass: 1, final: '22 N·m' }).rules).toEqual([
      ['pass-missing', 'query'],
    ]);
  });
});

describe('the answer', () => {
  it('has the fields of a record beside its judgement, and the numbers behind it', () => {
    const record = {
      position: 'P-3',
      cycle: 2,
      pass: 1,
      method: 'read',
      tool: 'W',
      serial: 'S',
      temperature: '20 °C',
      time: '10:05',
    };
    const { rows, unknownColumns } = judgedOf(
      [calloutOf({ runningIncluded: 'no', breakawayMin: '1 N·m', runningMax: '3 N·m' })],
      [recordOf({ ...record, running: '2 N·m', breakaway: '1.5 N·m', turns: 3, colour: 'red' })],
    );
    expect(rows[0]).toEqual({
      id: 'C / P-3 / 2 / 1',
      row: 2,
      callout: 'C',
      position: 'P-3',
      cycle: 2,
      pass: '1',
      decision: 'conforming',
      findings: [],
      computed: {
        bandNm: { min: 50, max: 58 },
        judgedAs: 'seating',
        finalNm: 54,
        runningNm: 2,
        seatingNm: 52,
        breakawayNm: 1.5,
        angleDeg: null,
        runningMaxNm: 3,
        breakawayMinNm: 1,
        turns: 3,
        turnsMedian: null,
        turnsAllowed: null,
      },
      method: 'read',
      tool: 'W',
      serial: 'S',
      temperatureC: 20,
      time: '10:05',
      otherColumns: { colour: 'red' },
    });
    expect(unknownColumns).toEqual(['colour']);
  });

  it('is no narrower for a callout whose band is empty: nothing is inside it', () => {
    expect(row({ torqueMin: '58 N·m', torqueMax: '50 N·m' }, { final: '54 N·m' }).rules).toEqual([
      ['final-outside-callout', 'reject'],
    ]);
  });

  it('notes a temperature without a unit rather than guessing one', () => {
    expect(row({}, { temperature: '75' })).toMatchObject({
      decision: 'conforming',
      rules: [['site-temperature', 'note']],
    });
  });
});
