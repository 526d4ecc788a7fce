import { RefusedError } from '../../errors.ts';
import type { Grid, GridRecord, OddCell } from '../grid.ts';
import { headerNames } from '../headerNames.ts';
import { cellName, type CellRange } from './cellRef.ts';
import type { SheetRow, Worksheet } from './worksheet.ts';

/** More than a person merges. */
const mergedMost = 100_000;

/**
 * A sheet's rows as a table below its header.
 *
 * @param x.headerRow - the sheet's row the header stands in; null for the first that is not blank
 * @throws RefusedError missing-field: no header, a column of it without a name, merged cells in it; duplicate-key: a name twice;
 *   too-large: too many columns
 */
export function sheetGrid(sheet: Worksheet, x: { file: string; sheet: string; headerRow: number | null }): Grid {
  const first = x.headerRow === null ? 0 : sheet.rows.findIndex(({ row }) => row === x.headerRow);
  const header = sheet.rows[first];
  if (header === undefined)
    throw new RefusedError({
      code: 'missing-field',
      message:
        x.headerRow === null
          ? `The sheet "${x.sheet}" is empty: it has no header.`
          : `Row ${x.headerRow} of the sheet "${x.sheet}" is empty: it is no header.`,
    });
  refuseMergedHeader(sheet.merged, header.row);
  const below = sheet.rows.slice(first + 1);
  const names = headerNames(header, () => below);
  const records: GridRecord[] = [];
  const ragged: Grid['ragged'] = [];
  for (const row of below) {
    const width = lastFilled(row.cells);
    if (width > names.length) {
      ragged.push({
        code: 'wrong-shape',
        message: `The row has ${width} cells, the header ${names.length}.`,
        ...{ file: x.file, row: row.row, value: width },
      });
    } else records.push(recordOf(row, names.length));
  }
  const merged = markMerged(sheet.merged, header.row, records);
  return {
    ...{ file: x.file, source: 'workbook', sheet: x.sheet, encoding: null, delimiter: '\t' },
    ...{ headerRow: header.row, names, records, ragged },
    notes: [
      ...(sheet.hiddenRows === 0 ? [] : [`Hidden rows of the sheet are read too: there are ${sheet.hiddenRows}.`]),
      ...(sheet.hasHiddenColumns ? ['Hidden columns of the sheet are read too.'] : []),
      ...(merged === 0
        ? []
        : [
            `Cells below the header are merged: ${merged} of them have no value of their own, and are refused where read.`,
          ]),
    ],
  };
}

function recordOf({ row, cells, odd }: SheetRow, width: number): GridRecord {
  const filled =
    cells.length < width ? [...cells, ...Array<string>(width - cells.length).fill('')] : cells.slice(0, width);
  return { row, cells: filled, odd };
}

function lastFilled(cells: readonly string[]): number {
  let width = cells.length;
  while (width > 0 && (cells[width - 1] ?? '').trim() === '') width -= 1;
  return width;
}

function refuseMergedHeader(merged: readonly CellRange[], row: number): void {
  const over = merged.find(({ from, to }) => from.row <= row && to.row >= row);
  if (over === undefined) return;
  throw new RefusedError({
    code: 'missing-field',
    message: `The cells ${cellName(over.from)}:${cellName(over.to)} of the header are merged: it takes one cell for each column. Part them, or name the row the header stands in.`,
    row,
  });
}

/** Says of every cell under a merged one that its value is another's. Returns how many there are. */
function markMerged(merged: readonly CellRange[], headerRow: number, records: GridRecord[]): number {
  let marked = 0;
  for (const { from, to } of merged.filter((range) => range.from.row > headerRow)) {
    for (let at = firstFrom(records, from.row); at < records.length; at += 1) {
      const record = records[at];
      if (record === undefined || record.row > to.row || from.column >= record.cells.length) break;
      const odd = new Map<number, OddCell>(record.odd ?? []);
      for (let column = from.column; column <= Math.min(to.column, record.cells.length - 1); column += 1) {
        if (record.row === from.row && column === from.column) continue;
        odd.set(column, { kind: 'merged' });
        marked += 1;
      }
      records[at] = { ...record, odd };
      if (marked > mergedMost)
        throw new RefusedError({
          code: 'too-large',
          message: `More than ${mergedMost} of the sheet’s cells are merged.`,
        });
    }
  }
  return marked;
}

/** The first record that stands in a row, or below it. */
function firstFrom(records: readonly GridRecord[], row: number): number {
  let [low, high] = [0, records.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((records[middle]?.row ?? 0) < row) low = middle + 1;
    else high = middle;
  }
  return low;
}
