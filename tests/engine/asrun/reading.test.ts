import { describe, expect, it } from 'vitest';
import { judgeAsRun } from '../../../renderer/engine/asrun/index.ts';
import { readMoment } from '../../../renderer/engine/asrun/moment.ts';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import { calloutOf, csvOf, judgedOf, recordOf, type Cells } from './judged.ts';

const refusalOf = (callouts: readonly Cells[], records: readonly Cells[], tools?: readonly Cells[]): Refusal => {
  try {
    judgedOf(callouts, records, tools === undefined ? {} : { tools });
  } catch (error) {
    if (error instanceof RefusedError) return error.refusal;
    throw error;
  }
  throw new Error('it is not refused');
};
const one = (changes: Cells): Refusal => refusalOf([calloutOf()], [recordOf(changes)]);

describe('a bad field is refused with its file, line, field and value', () => {
  it.each([
    [{ callout: 'D' }, 'callout', 'unknown-id', 'D'],
    [{ callout: '' }, 'callout', 'missing-field', undefined],
    [{ position: '' }, 'position', 'missing-field', undefined],
    [{ cycle: '' }, 'cycle', 'missing-field', undefined],
    [{ cycle: '0' }, 'cycle', 'out-of-range', '0'],
    [{ cycle: '1.5' }, 'cycle', 'out-of-range', '1.5'],
    [{ cycle: 'first' }, 'cycle', 'unreadable-quantity', 'first'],
    [{ final: '' }, 'final', 'missing-field', undefined],
    [{ final: '54' }, 'final', 'ambiguous-quantity', '54'],
    [{ final: '1,200 lbf·in' }, 'final', 'ambiguous-quantity', '1,200 lbf·in'],
    [{ final: '54 mm' }, 'final', 'wrong-kind', '54 mm'],
    [{ final: '54 Nmm2' }, 'final', 'unknown-unit', '54 Nmm2'],
    [{ final: '-1 N·m' }, 'final', 'out-of-range', '-1 N·m'],
    [{ final: '1e300 kN·m' }, 'final', 'out-of-range', '1e300 kN·m'],
    [{ final: '=SUM(A1)' }, 'final', 'wrong-shape', '=SUM(A1)'],
    [{ final: '3-Apr' }, 'final', 'wrong-shape', '3-Apr'],
    [{ running: 'n/a' }, 'running', 'unreadable-quantity', 'n/a'],
    [{ breakaway: '2' }, 'breakaway', 'ambiguous-quantity', '2'],
    [{ method: 'guess' }, 'method', 'wrong-shape', 'guess'],
    [{ turns: '-1' }, 'turns', 'out-of-range', '-1'],
    [{ turns: '3 mm' }, 'turns', 'wrong-kind', '3 mm'],
    [{ temperature: 'warm' }, 'temperature', 'unreadable-quantity', 'warm'],
    [{ temperature: '4000 °C' }, 'temperature', 'out-of-range', '4000 °C'],
  ])('%j', (changes, field, code, value) => {
    expect(one(changes)).toMatchObject({
      file: 'asrun.csv',
      row: 2,
      field,
      code,
      ...(value === undefined ? {} : { value }),
    });
  });
});

describe('rows that are not what they seem', () => {
  it('refuses the same position, cycle and pass twice, and takes it with another pass', () => {
    const twice = refusalOf([calloutOf()], [recordOf(), recordOf({ position: 2 }), recordOf({ final: '55 N·m' })]);
    expect(twice).toMatchObject({ code: 'duplicate-id', row: 4, field: 'position' });
    expect(twice.message).toContain('line 2');
    expect(judgedOf([calloutOf()], [recordOf({ pass: 1 }), recordOf({ pass: 2 })]).rows).toHaveLength(2);
  });

  it('refuses an id that two callouts have', () => {
    expect(refusalOf([calloutOf(), calloutOf({ torqueMax: '90 N·m' })], [recordOf()])).toMatchObject({
      code: 'duplicate-id',
      field: 'callout',
      file: 'asrun.csv',
    });
  });

  it('tells all bad rows of all files in one go', () => {
    const refusal = refusalOf(
      [calloutOf(), calloutOf({ id: 'D', torqueMax: '9 mm' })],
      [
        recordOf({ final: '5' }),
        recordOf({ callout: 'D' }),
        recordOf({ position: 2 }),
        recordOf({ position: 3, cycle: 'x', running: 'y' }),
      ],
      [{ serial: 'S', calibrationDue: 'soon' }],
    );
    expect(refusal.rows?.map(({ file, row, field }) => [file, row, field])).toEqual([
      ['callouts.csv', 3, 'torqueMax'],
      ['asrun.csv', 2, 'final'],
      ['asrun.csv', 3, 'callout'],
      ['asrun.csv', 5, 'cycle'],
      ['asrun.csv', 5, 'running'],
      ['tools.csv', 2, 'calibrationDue'],
    ]);
  });

  it('judges the rest where bad rows are to be passed over, and lists them', () => {
    const { rows, skipped, summary } = judgedOf(
      [calloutOf(), calloutOf({ id: 'D', torqueMax: '9 mm' })],
      [recordOf({ final: '5' }), recordOf({ callout: 'D' }), recordOf({ position: 2 })],
      { skipBad: true },
    );
    expect(rows.map(({ id }) => id)).toEqual(['C / 2 / 1']);
    expect(summary).toEqual({ conforming: 1, nonconforming: 0, indeterminate: 0 });
    expect(skipped?.map(({ file, row }) => [file, row])).toEqual([
      ['callouts.csv', 3],
      ['asrun.csv', 2],
      ['asrun.csv', 3],
    ]);
  });

  it('refuses a file without its columns', () => {
    expect(refusalOf([calloutOf()], [{ callout: 'C', position: 1 }])).toMatchObject({
      code: 'missing-field',
      file: 'asrun.csv',
      field: 'cycle',
    });
  });
});

describe('spreadsheets of other places', () => {
  it('reads semicolons, decimal commas, a byte order mark and UTF-16 alike', () => {
    const text = 'callout;position;cycle;final\r\nC;1;1;59,5 N·m\r\n';
    const utf16 = new Uint8Array(2 + 2 * text.length);
    [`\uFEFF${text}`].forEach((whole) => {
      for (let index = 0; index < whole.length; index += 1) {
        utf16[2 * index] = whole.charCodeAt(index) & 0xff;
        utf16[2 * index + 1] = whole.charCodeAt(index) >> 8;
      }
    });
    for (const content of [text, `\uFEFF${text}`, utf16]) {
      const { rows } = judgeAsRun({
        asRun: { content },
        callouts: { content: csvOf([calloutOf()]) },
        skipBad: false,
      });
      expect(rows[0]?.computed.finalNm).toBe(59.5);
    }
  });
});

describe('a time', () => {
  it.each([
    ['1970-01-01T00:00:00Z', 'zoned', 0, 0],
    ['2026-03-01 10:00', 'local', Date.UTC(2026, 2, 1, 10) / 1000, Date.UTC(2026, 2, 1) / 86_400_000],
    [
      '2026-03-01T10:00:30.5+02:00',
      'zoned',
      Date.UTC(2026, 2, 1, 8, 0, 30, 500) / 1000,
      Date.UTC(2026, 2, 1) / 86_400_000,
    ],
    ['2024-02-29', 'day', Date.UTC(2024, 1, 29) / 1000, Date.UTC(2024, 1, 29) / 86_400_000],
    ['1969-12-31T23:30-01:00', 'zoned', 1800, -1],
    ['09:30', 'clock', 34_200, null],
  ])('%s', (text, form, seconds, day) => {
    expect(readMoment(text)).toEqual({ form, seconds, day });
  });

  it('agrees with the calendar on 5,000 days', () => {
    for (let day = -400_000; day < 400_000; day += 160) {
      const text = new Date(day * 86_400_000).toISOString().slice(0, 10);
      expect([text, readMoment(text)?.day]).toEqual([text, day]);
    }
  });

  it.each([
    '2025-02-29',
    '2026-13-01',
    '2026-00-10',
    '24:00',
    '10:60',
    'noon',
    '',
    '46000',
    '10:00Z',
    '2026-03-01Z',
    '2026-03-01T10:00+15:00',
  ])('"%s" is none', (text) => {
    expect(readMoment(text)).toBeNull();
  });
});
