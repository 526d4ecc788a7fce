import Papa from 'papaparse';
import { harmless } from './cellText.ts';
import { exactCell } from './exactCell.ts';

/**
 * A table as CSV (RFC 4180): texts that a spreadsheet would run are made harmless, numbers stand as they are, −5 too. Cells at whose signs
 * a spreadsheet might part stand in quotation marks, and all texts of a table with a number below zero in front: so nothing of the next
 * cell is joined to a number at their end.
 *
 * @param fields - the header
 * @param rows - one cell for each field; null for an empty one
 */
export function csvText(fields: readonly string[], rows: readonly (readonly (string | number | null)[])[]): string {
  const data = rows.map((row) => row.map((cell) => (typeof cell === 'string' ? harmless(cell) : cell)));
  const hasSignedFirst = rows.some(([first]) => typeof first === 'number' && first < 0);
  const quotes = (cell: unknown): boolean =>
    typeof cell === 'string' && ((hasSignedFirst && !cell.startsWith("'")) || /[;\t]/.test(cell));
  return `${Papa.unparse({ fields: fields.map(harmless), data }, { newline: '\r\n', quotes })}\r\n`;
}

/**
 * A table as CSV that is read back as it was, to the last sign: nothing is changed but what a reader here would take for a formula. Made
 * for this program and for scripts; for a spreadsheet there is `csvText`. NUL, which no table can hold, becomes the replacement sign, and
 * a line break within a cell is read back as LF.
 *
 * @param fields - the header
 * @param rows - one cell for each field; null for an empty one
 */
export function exactCsvText(
  fields: readonly string[],
  rows: readonly (readonly (string | number | null)[])[],
): string {
  const exact = (cell: string): string => exactCell(cell).replaceAll('\0', '\ufffd');
  const data = rows.map((row) => row.map((cell) => (typeof cell === 'string' ? exact(cell) : cell)));
  return `${Papa.unparse({ fields: fields.map(exact), data }, { newline: '\r\n' })}\r\n`;
}

/**
 * A block of cells for the clipboard, as spreadsheets take it: tabs between cells, quotation marks around cells with breaks in them.
 * Pasted here it gives the same cells; pasted into a spreadsheet it runs nothing.
 */
export function clipboardText(rows: readonly (readonly (string | number | null)[])[]): string {
  const [fields = [], ...data] = rows.map((row) =>
    row.map((cell) => (cell === null ? '' : typeof cell === 'string' ? harmless(cell) : String(cell))),
  );
  return Papa.unparse({ fields, data }, { newline: '\n', delimiter: '\t' });
}
