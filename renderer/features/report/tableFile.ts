import { safeFileName } from '../../../shared-types/fileName.ts';
import type { FileToSave } from '../../../shared-types/host.ts';
import { csvText, exactCsvText } from '../../engine/sheet/csvText.ts';
import { workbookBytes } from '../../engine/sheet/xlsx/index.ts';

/** `csv` is harmless in a spreadsheet, `exact-csv` is read back to the last sign. */
export type TableForm = 'csv' | 'exact-csv' | 'xlsx' | 'json';

export type Cell = string | number | null;

const kinds = {
  csv: { ending: '.csv', mediaType: 'text/csv' },
  'exact-csv': { ending: '_exact.csv', mediaType: 'text/csv' },
  xlsx: { ending: '.xlsx', mediaType: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet' },
  json: { ending: '.json', mediaType: 'application/json' },
} as const satisfies Record<TableForm, Pick<FileToSave, 'mediaType'> & { ending: string }>;

export const tableForms: readonly { value: TableForm; label: string }[] = [
  { value: 'csv', label: 'CSV, safe to open in a spreadsheet' },
  { value: 'exact-csv', label: 'CSV, exact: for programs and for bringing in here' },
  { value: 'xlsx', label: 'Workbook (.xlsx)' },
  { value: 'json', label: 'JSON' },
];

/** A file of one of the forms, its name made safe and given the form's ending. */
export function fileOf(name: string, form: TableForm, content: string | Uint8Array): FileToSave {
  const { ending, mediaType } = kinds[form];
  const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
  return { name: safeFileName(`${name}${ending}`), mediaType, bytes };
}

/**
 * A table as a file of one of the forms: a list of callouts, of records, of whatever has columns.
 *
 * @param x.name - of the file, without an ending
 * @param x.rows - one cell for each column; null for an empty one
 */
export function tableFile(x: {
  name: string;
  form: TableForm;
  columns: readonly string[];
  rows: readonly (readonly Cell[])[];
}): FileToSave {
  const { name, form, columns, rows } = x;
  return fileOf(name, form, contentOf(form, columns, rows, name));
}

function contentOf(form: TableForm, columns: readonly string[], rows: readonly (readonly Cell[])[], name: string) {
  switch (form) {
    case 'xlsx':
      return workbookBytes(columns, rows, name);
    case 'json': {
      const filled = (cells: readonly Cell[]) =>
        columns.flatMap((column, at) => ((cells[at] ?? null) === null ? [] : [[column, cells[at]] as const]));
      return `${JSON.stringify({ columns, rows: rows.map((cells) => Object.fromEntries(filled(cells))) }, null, 2)}\n`;
    }
    // The mark tells a spreadsheet that the letters are UTF-8.
    case 'csv':
      return `\uFEFF${csvText(columns, rows)}`;
    case 'exact-csv':
      return `\uFEFF${exactCsvText(columns, rows)}`;
  }
}
