/** What the command writes for people and spreadsheets, and the small parts behind it, to the letter. */
import { describe, expect, it } from 'vitest';
import { asRunCsv, asRunText } from '../../../renderer/engine/asrun/index.ts';
import { isBefore, readMoment, type Moment } from '../../../renderer/engine/asrun/moment.ts';
import { nextBreakaway } from '../../../renderer/engine/asrun/nextBreakaway.ts';
import { passingCycle } from '../../../renderer/engine/asrun/passingCycle.ts';
import { turnsPatternOf } from '../../../renderer/engine/asrun/turnsPattern.ts';
import { calloutOf, judgedOf, recordOf, rulesOf } from './judged.ts';

const result = judgedOf(
  [calloutOf(), calloutOf({ id: 'D', torqueMin: '5' })],
  [
    recordOf({ note: 'as found' }),
    recordOf({ position: 2, final: '62 N·m', pass: 1 }),
    recordOf({ callout: 'X', position: 3 }),
  ],
  { skipBad: true },
);

describe('as CSV', () => {
  const lines = asRunCsv(result).trimEnd().split('\r\n');

  it('a record without findings has a line, and one with them a line for each', () => {
    expect(lines[0]).toBe('callout,position,cycle,pass,decision,rule,severity,message,value,limit,unit,source,note');
    expect(lines[1]).toBe('C,1,1,,conforming,,,,,,,,as found');
    expect(lines[2]).toMatch(
      /^C,2,1,1,nonconforming,final-outside-callout,reject,The final torque of 62 N·m is 4 N·m over [^,]+,62,58,N·m,"?The callout itself.*,$/,
    );
  });

  it('a row passed over has a line with its file and reason', () => {
    expect(lines.slice(3)).toEqual([
      expect.stringMatching(/^"callouts\.csv, line 3",,,,skipped,,,"?torqueMin: .*has no unit/) as string,
      '"asrun.csv, line 4",,,,skipped,,,callout: is no id of the callouts,,,,,',
    ]);
  });

  it('a column called as one of the answer’s own keeps apart', () => {
    const own = judgedOf([calloutOf()], [recordOf({ Rule: 'mine', unit: 'yours' })]);
    const [header = '', line = ''] = asRunCsv(own).split('\r\n');
    expect(header.endsWith(',source,Rule (as given),unit (as given)')).toBe(true);
    expect(line.endsWith(',mine,yours')).toBe(true);
  });
});

describe('as text', () => {
  it('has counts, findings, what was passed over, columns unread and the caution', () => {
    const lines = asRunText(result).split('\n');
    expect(lines[0]).toBe('2 records: 1 conforming, 1 nonconforming, 0 indeterminate.');
    expect(lines).toContain('C, position 1, cycle 1: conforming');
    expect(lines).toContain('C, position 2, cycle 1, pass 1: nonconforming');
    expect(lines).toContain('Passed over');
    expect(lines).toContain('  asrun.csv, line 4: callout: is no id of the callouts');
    expect(lines).toContain('Columns that no rule reads: note');
    expect(lines.at(-2)).toMatch(/^Torque and lifting can hurt people\./);
  });

  it('leaves out what there is none of', () => {
    const text = asRunText(judgedOf([calloutOf()], [recordOf()]));
    for (const words of ['Passed over', 'Columns that', 'Breakaway torque over', 'Tools found out'])
      expect(text).not.toContain(words);
  });

  it('says when a series passes under its minimum', () => {
    const series = (torques: readonly number[], minimum: string) =>
      asRunText(
        judgedOf(
          [calloutOf({ breakawayMin: minimum })],
          torques.map((torque, index) => recordOf({ cycle: index + 1, breakaway: `${torque} N·m` })),
        ),
      );
    expect(series([2, 1.9, 1.8], '1 N·m')).toContain(
      'passes under the minimum: cannot be known: 3 of at least 4 cycles have a reading',
    );
    expect(series([2, 1.9, 0.9], '1 N·m')).toContain('already, for the reading of cycle 3 is under it');
    const falling = Array.from({ length: 12 }, (_, index) => Math.round(2e4 * 0.9 ** index) / 1e4);
    expect(series(falling, '0.5 N·m')).toMatch(
      /passes under the minimum: cycle 1[345] to 1[5-9], 95 % interval; at cycle 15 if it goes on falling by the same share/,
    );
    expect(
      series(
        Array.from({ length: 10 }, () => 2),
        '1 N·m',
      ),
    ).toContain('not before cycle 21 (95 %)');
    expect(series([2, 1.9, 1.8], '')).toContain('no minimum held');
  });
});

describe('a missing running torque', () => {
  it.each([
    ['no', 'the callout leaves running torque out'],
    ['', 'the callout does not say whether running torque is in it'],
  ])('where running torque included is "%s": %s', (runningIncluded, why) => {
    const [row] = judgedOf([calloutOf({ runningIncluded })], [recordOf()]).rows;
    expect(row?.findings[0]?.message).toContain(why);
  });
});

describe('two times', () => {
  const moment = (text: string): Moment => readMoment(text) as Moment;

  it.each([
    ['10:00', '10:01', true],
    ['10:01', '10:01', false],
    ['2026-03-01', '2026-03-02', true],
    ['2026-03-01', '2026-03-01', false],
    ['2026-03-01', '2026-03-02 08:00', true],
    ['2026-03-02 08:00', '2026-03-01', false],
    ['2026-03-01', '2026-03-01 08:00', null],
    ['2026-03-01 08:00', '2026-03-02T08:00Z', null],
    ['2026-03-01T08:00+01:00', '2026-03-01T08:00Z', true],
    ['10:00', '2026-03-01', null],
  ])('%s before %s: %s', (one, other, wanted) => {
    expect(isBefore(moment(one), moment(other))).toBe(wanted);
  });

  it('have an offset of at most 14 hours and 59 minutes', () => {
    expect(readMoment('2026-03-01T10:00+14:00')).not.toBeNull();
    expect(readMoment('2026-03-01T10:00-00:59')).not.toBeNull();
    for (const offset of ['+15:00', '+01:60']) expect(readMoment(`2026-03-01T10:00${offset}`)).toBeNull();
  });

  it('are the same instant whatever their offset', () => {
    const utc = readMoment('2026-03-01T04:30Z')?.seconds;
    for (const text of ['2026-03-01T10:00+05:30', '2026-03-01T01:00-0330', '2026-03-01 04:30:00 z'])
      expect([text, readMoment(text)?.seconds]).toEqual([text, utc]);
  });

  it('end with the last day of each month', () => {
    for (let month = 1; month <= 12; month += 1) {
      const [last, text] = [new Date(Date.UTC(2026, month, 0)).getUTCDate(), `2026-${String(month).padStart(2, '0')}`];
      expect([text, readMoment(`${text}-${last}`)?.form, readMoment(`${text}-${last + 1}`)]).toEqual([
        text,
        'day',
        null,
      ]);
    }
  });

  it('may have a leap second, and no more', () => {
    expect(readMoment('23:59:60')?.seconds).toBe(86_400);
    expect(readMoment('23:59:61')).toBeNull();
  });
});

describe('edges', () => {
  it('an order of a single position is an order', () => {
    const rules = rulesOf(judgedOf([calloutOf({ sequence: '1' })], [recordOf({ position: 2, time: '10:00' })]));
    expect(rules).toEqual([[['position-missing', 'query']]]);
  });

  it('a list of a single pass is a list', () => {
    const rows = [recordOf({ pass: 1, time: '10:02' }), recordOf({ pass: 2, time: '10:01' })];
    expect(rulesOf(judgedOf([calloutOf({ passes: '50-58 N·m' })], rows))).toEqual([
      [],
      [['pass-out-of-order', 'query']],
    ]);
  });

  it('passes are in order by their numbers, not by their lines', () => {
    const rows = [recordOf({ pass: 2, time: '10:01' }), recordOf({ pass: 1, time: '10:02' })];
    expect(rulesOf(judgedOf([calloutOf()], rows))).toEqual([[['pass-out-of-order', 'note']], []]);
    expect(rulesOf(judgedOf([calloutOf()], rows.toReversed()))).toEqual([[], [['pass-out-of-order', 'note']]]);
    const inOrder = [recordOf({ pass: 2, time: '10:02' }), recordOf({ pass: 1, time: '10:01' })];
    expect(rulesOf(judgedOf([calloutOf()], inOrder))).toEqual([[], []]);
  });

  it('a hundred degrees either way are a temperature, and no more', () => {
    const at = (celsius: number) => judgedOf([calloutOf()], [recordOf({ temperature: `${celsius} °C` })]).rows[0];
    expect([at(-100)?.temperatureC, at(100)?.temperatureC]).toEqual([-100, 100]);
    for (const celsius of [-100.1, 100.1]) expect(() => at(celsius)).toThrow('-100 to 100 °C');
  });

  it('four readings can bend', () => {
    const straight = (torques: readonly number[]) =>
      nextBreakaway(torques.map((breakawayNm, index) => ({ cycle: index + 1, breakawayNm })))?.straight;
    // Second differences of 2 and 2, and of −2 and 2.
    expect(straight([8, 4, 2, 2])).toBe(false);
    expect(straight([8, 7, 4, 3])).toBe(true);
  });

  it('a minimum that is not held at the next cycle is none', () => {
    const readings = [1, 2, 3, 4, 5].map((cycle) => ({ cycle, breakawayNm: 2 }));
    const said = passingCycle(readings, (cycle) => (cycle === 6 ? null : 1));
    expect(said).toMatchObject({ status: 'cannot-know', why: 'no minimum is held' });
  });

  it('as many turns as a million are read, and no more', () => {
    const angle = (degrees: number) => judgedOf([calloutOf()], [recordOf({ angle: `${degrees} deg` })]);
    expect(angle(360e6).rows[0]?.computed.angleDeg).toBe(360e6);
    expect(() => angle(360e6 + 1)).toThrow('1000000 turns');
  });

  it('a pattern has the median of its turns, of an even number the middle of two', () => {
    expect(turnsPatternOf([1, 2, 3])).toBeNull();
    expect(turnsPatternOf([5, 1, 2, 3])).toEqual({ median: 2.5, allowed: expect.closeTo(3 * 1.4826, 12) });
    expect(turnsPatternOf([3, 3, 9, 3, 3])).toEqual({ median: 3, allowed: 0.25 });
  });

  it('a forecast looks as many cycles ahead as lie behind, first and last counted', () => {
    const stays = [3, 4, 5, 6, 8].map((cycle) => ({ cycle, breakawayNm: 2 }));
    expect(passingCycle(stays, () => 0.01)).toMatchObject({ status: 'not-before', fromCycle: 8 + 6 + 1 });
  });

  it('a forecast that begins with the next cycle says nothing', () => {
    const close = [1, 2, 3, 4, 5].map((cycle) => ({ cycle, breakawayNm: 2 - 0.01 * (cycle % 2) }));
    expect(passingCycle(close, () => 1.95)).toMatchObject({ status: 'cannot-know', fromCycle: null, toCycle: null });
  });

  it('a slope is per cycle, however the cycles are spaced', () => {
    const spaced = [2, 5, 9, 30].map((cycle) => ({ cycle, breakawayNm: 9 - 0.2 * cycle }));
    expect(nextBreakaway(spaced)?.slopeNmPerCycle).toBeCloseTo(-0.2, 12);
    expect(nextBreakaway(spaced)).toMatchObject({ cycle: 31, cycles: 4 });
  });
});
