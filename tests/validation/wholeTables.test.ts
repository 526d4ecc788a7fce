/**
 * Every table held, looked up whole: each row by what it prints first, each cell against a second transcription of the page, kept as
 * printed text. A slip in either shows here; what no command or formula reads is held to print all the same.
 */
import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { rowsWhere, rowWhere, tableByKey } from '../../renderer/engine/handbook/index.ts';
import { noteCompared } from './values/compared.ts';
import { cellAt, printedTable, type Cell } from './values/cells.ts';
import { fault, numberOf } from './values/printed.ts';

const keys = readdirSync(new URL('values/tables/', import.meta.url))
  .map((file) => file.replace(/\.json$/, ''))
  .toSorted();

/** Columns that are printed and not held: the program subtracts the limits itself, see below. */
const computedColumns = new Set(['min_clearance_in', 'max_clearance_in']);

/** Columns that the program holds and no second transcription has: exact arithmetic beside the print, words of a reader. */
const ownColumns = new Set(['inch_mm', 'difference_mm', 'flag', 'note']);

it('forty-three tables have a second transcription', () => {
  expect(keys).toHaveLength(43);
});

describe.each(keys)('%s', (key) => {
  const table = printedTable(key);
  const held = tableByKey(key);

  it('has as many rows, and none of another source', () => {
    expect(held.rows).toHaveLength(table.rows.length);
    expect(held.source).toEqual(table.source);
    expect(held.obtained).toBe(table.obtained);
  });

  it.each(table.rows.map((row, index) => ({ row, index, named: Object.values(row).slice(0, 2).join(', ') })))(
    'gives back the row of $named',
    ({ row, index }) => {
      const [column = ''] = Object.keys(row);
      const sameNamed = table.rows.slice(0, index).filter((earlier) => String(earlier[column]) === String(row[column]));
      const found = rowsWhere<Record<string, unknown>, string>(
        held as unknown as Parameters<typeof rowsWhere<Record<string, unknown>, string>>[0],
        column,
        valueOf(row[column], (held.rows[0] as Record<string, unknown>)[column]),
      )[sameNamed.length];
      expect(found).toBeDefined();
      for (const [name, value] of Object.entries(found ?? {})) {
        if (ownColumns.has(name)) continue;
        const cell = row[name];
        if (cell === undefined) expect(value ?? '').toBe('');
        else expectSame(value, cell, table.source);
      }
      for (const name of Object.keys(row))
        if (!computedColumns.has(name)) expect(found, `${name} is printed and not held`).toHaveProperty([name]);
    },
  );
});

it.each(printedTable('square-drives-asa-b5.38').rows.map((row) => ({ row, drive: cellAt(row, 'drive') })))(
  'the limits held of the square $drive in leave the clearances that ASA B5.38 prints',
  ({ row, drive }) => {
    const held = rowWhere(tableByKey('square-drives-asa-b5.38'), 'drive', drive);
    expect(fault(held.female_min_in - held.male_max_in, cellAt(row, 'min_clearance_in'))).toBeNull();
    expect(fault(held.female_max_in - held.male_min_in, cellAt(row, 'max_clearance_in'))).toBeNull();
  },
);

/** The printed text as the table's own kind of value. */
function valueOf(cell: Cell | undefined, like: unknown): unknown {
  return typeof like === 'number' && typeof cell === 'string' ? numberOf(cell) : cell;
}

function expectSame(value: unknown, cell: Cell, source: Parameters<typeof noteCompared>[1]): void {
  if (Array.isArray(value)) expect(value.map(String)).toEqual(cell);
  else if (typeof value === 'number' && typeof cell === 'string') {
    noteCompared({ computed: value, printed: cell, off: Math.abs(value - numberOf(cell)), tolerance: 0 }, source);
    expect(value).toBe(numberOf(cell));
  } else expect(value).toEqual(cell);
}
