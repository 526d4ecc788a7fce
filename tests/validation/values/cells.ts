import { expect } from 'vitest';
import { noteCompared } from './compared.ts';
import { numberOf, printed, type Printed } from './printed.ts';

/** A cell as printed; a list of sizes is one cell. */
export type Cell = string | boolean | string[];
export type CellRow = Record<string, Cell>;

/** A whole published table, cell by cell as printed. */
export function printedTable(key: string): Printed<CellRow> {
  return printed<CellRow>(`tables/${key}`);
}

/** The text of a cell; nothing where the source prints nothing. */
export function textAt(row: CellRow, column: string): string | undefined {
  const cell = row[column];
  return typeof cell === 'string' ? cell : undefined;
}

/** The text of a cell that is printed. */
export function cellAt(row: CellRow, column: string): string {
  const text = textAt(row, column);
  if (text === undefined) throw new Error(`${column} is not printed in ${JSON.stringify(row)}`);
  return text;
}

/** Exact: a cell that is looked up has no tolerance but that of the unit's conversion, some units of the last binary place. */
export function expectCell(found: number | null, cell: string, sizeOfUnit: number, table: Printed<unknown>): void {
  const wanted = numberOf(cell) * sizeOfUnit;
  expect(found).not.toBeNull();
  const value = found ?? Number.NaN;
  const tolerance = 4 * Number.EPSILON * Math.abs(wanted);
  noteCompared({ computed: value, printed: cell, off: Math.abs(value - wanted), tolerance }, table.source);
  expect(Math.abs(value - wanted), `found ${value}, printed ${cell}`).toBeLessThanOrEqual(tolerance);
}

/** Exact sizes of the units that the tables print, in N·m and mm: the inch, the pound and standard gravity by definition. */
export const unitSizes = {
  lbfIn: 0.0254 * 0.45359237 * 9.80665,
  lbfFt: 0.3048 * 0.45359237 * 9.80665,
  ozfIn: (0.0254 * 0.45359237 * 9.80665) / 16,
  nm: 1,
  in: 25.4,
  mm: 1,
};
