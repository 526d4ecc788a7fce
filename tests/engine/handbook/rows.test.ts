import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import {
  citationOf,
  mmOfPrintedInches,
  numberAt,
  rowsWhere,
  rowWhere,
  tableByKey,
} from '../../../renderer/engine/handbook/index.ts';

const military = tableByKey('prevailing-mil-dtl-45916-fine');
const classes = tableByKey('classes-iso-898-1');

function refusalOf(act: () => unknown): RefusedError['refusal'] {
  try {
    act();
  } catch (error) {
    if (error instanceof RefusedError) return error.refusal;
    throw error;
  }
  throw new Error('was not refused');
}

describe('a row', () => {
  it('is the one that has the value', () => {
    expect(rowWhere(military, 'thread', '0.4375-20').min_breakaway_torque_lbf_in).toBe(14);
  });

  it('that is missing is refused, not zero and not the neighbour', () => {
    const refusal = refusalOf(() => rowWhere(military, 'thread', '0.875-14'));
    expect(refusal.code).toBe('not-held');
    expect(refusal.value).toBe('0.875-14');
    expect(refusal.field).toBe('thread');
    expect(refusal.message).toContain('MIL-DTL-45916C, Table I');
    for (const row of military.rows) expect(refusal.message).toContain(row.thread);
  });

  it('between two printed sizes is refused', () => {
    const openings = tableByKey('wrench-openings-asme-b18.2.2');
    expect(refusalOf(() => rowWhere(openings, 'nominal_in', 0.6)).code).toBe('not-held');
  });

  it('that is one of several is refused until a second column tells them apart', () => {
    expect(rowsWhere(classes, 'property_class', '8.8').map((row) => row.size_range)).toEqual(['d<=16 mm', 'd>16 mm']);
    expect(refusalOf(() => rowWhere(classes, 'property_class', '8.8')).code).toBe('contradiction');
  });
});

describe('a number in a cell', () => {
  it('is that number', () => {
    expect(numberAt(military, rowWhere(military, 'thread', '0.250-28'), 'min_breakaway_torque_lbf_in')).toBe(3.5);
  });

  it('is refused where the source prints nothing: an empty cell is not zero', () => {
    const row = rowWhere(military, 'thread', '0.112-48');
    const refusal = refusalOf(() => numberAt(military, row, 'min_breakaway_torque_lbf_in'));
    expect(refusal.code).toBe('not-held');
    expect(refusal.message).toContain('min_breakaway_torque_lbf_in for 0.112-48');
    const army = tableByKey('torque-army-general');
    const absent = rowWhere(army, 'thread', '1-1/8-12');
    expect(refusalOf(() => numberAt(army, absent, 'torque_dry_grade_7_lbf_ft')).code).toBe('not-held');
  });
});

it.each([NaN, Infinity, '3.5', null])('a cell of %s is no number', (cell) => {
  const row = { ...rowWhere(military, 'thread', '0.250-28'), min_breakaway_torque_lbf_in: cell };
  const refusal = refusalOf(() =>
    numberAt(military, row as (typeof military.rows)[number], 'min_breakaway_torque_lbf_in'),
  );
  expect(refusal).toMatchObject({ code: 'not-held', field: 'min_breakaway_torque_lbf_in', value: cell });
});

describe('a citation', () => {
  it('has the document and how the table was obtained', () => {
    expect(citationOf(tableByKey('heavy-hex-asme'))).toEqual({
      key: 'heavy-hex-asme',
      title: 'Heavy hex screws/bolts and heavy hex nuts',
      number: 'ASME B18.2.1 / B18.2.2 / B18.2.6',
      edition: 'not stated',
      table: 'heavy hex width across flats',
      publisher: 'ASME',
      obtained: 'from memory',
    });
  });

  it('of a row from memory says so, though its table was read', () => {
    const series = tableByKey('unified-series-asme-b1.1');
    const [read] = rowsWhere(series, 'size', '1-1/4');
    const [recalled] = rowsWhere(series, 'size', '1-3/8');
    expect(citationOf(series, read).obtained).toBe('text found');
    expect(citationOf(series, recalled).obtained).toBe('from memory');
  });
});

it.each([
  [0.316, 8.0264],
  [0.15625, 3.96875],
  [0.34375, 8.73125],
  [3.162, 80.3148],
  [1.005, 25.527],
])('%s in as printed is %s mm to the last bit', (inches, mm) => {
  expect(mmOfPrintedInches(inches)).toBe(mm);
});
