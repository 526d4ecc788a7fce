import { RefusedError } from '../errors.ts';
import type { Grid } from './grid.ts';
import { readTable } from './readTable.ts';
import { splitTable } from './splitTable.ts';

/**
 * A table out of the bytes of a CSV file, or out of a text.
 *
 * @param given.known - names of columns that tell its delimiter apart
 * @throws RefusedError as readTable does
 */
export function csvGrid(given: { content: Uint8Array | string; file: string; known: readonly string[] }): Grid {
  const table = readTable(given, { known: given.known, needed: [] });
  const names: string[] = [];
  for (const [name, at] of table.columns) names[at] = name;
  for (const { name, at } of table.unknownColumns) names[at] = name;
  // Rows of the wrong length are found while the others are gone through.
  const records = Array.from(table.records, ({ row, cells }) => ({ row, cells, odd: null }));
  return {
    ...{ file: given.file, source: 'csv', sheet: null, encoding: table.encoding, delimiter: table.delimiter },
    ...{ headerRow: 1, names, ragged: [...table.ragged], notes: table.notes },
    records,
  };
}

/**
 * A block of cells as spreadsheets put it on the clipboard: tabs between cells, cells with breaks in quotation marks.
 *
 * @param given.hasHeader - whether its first row names the columns; without one they are "Column 1" and on
 * @throws RefusedError unreadable-file, too-large, missing-field, duplicate-key
 */
export function pastedGrid(given: { text: string; hasHeader: boolean; known: readonly string[] }): Grid {
  const file = 'pasted rows';
  if (given.hasHeader)
    return { ...csvGrid({ content: given.text, file, known: given.known }), source: 'paste', encoding: null };
  if (given.text.includes('\0'))
    throw new RefusedError({ code: 'unreadable-file', message: 'The pasted rows hold a NUL character.', file });
  const { delimiter, header, records: below } = splitTable(given.text, (names) => names.length);
  const records = header === null ? [] : [header, ...below()];
  const width = records.reduce((most, { cells }) => Math.max(most, cells.length), 0);
  if (width === 0) throw new RefusedError({ code: 'missing-field', message: 'Nothing was pasted.', file });
  return {
    ...{ file, source: 'paste', sheet: null, encoding: null, delimiter, headerRow: 0, ragged: [], notes: [] },
    names: Array.from({ length: width }, (_, at) => `Column ${at + 1}`),
    records: records.map(({ row, cells }) => ({
      row,
      cells: [...cells, ...Array<string>(width - cells.length).fill('')],
      odd: null,
    })),
  };
}
