import type { Refusal } from '../../../shared-types/errors.ts';
import { RefusedError } from '../errors.ts';
import { decodeBytes, type Encoding } from './decodeBytes.ts';
import { delimiterNames, type Delimiter } from './delimiter.ts';
import { splitTable, type SheetRecord } from './splitTable.ts';

/** What a table is to hold. */
export interface TableForm {
  /** Every column that is read, as its header spells it. */
  known: readonly string[];
  /** The columns it cannot do without: one of several sets. */
  needed: readonly (readonly string[])[];
}

export interface Table {
  file: string | null;
  /** Null where the table came as text. */
  encoding: Encoding | null;
  delimiter: Delimiter;
  /** Position of each known column there is. */
  columns: ReadonlyMap<string, number>;
  /** Columns that nothing reads, as the header spells them. */
  unknownColumns: { name: string; at: number }[];
  records: SheetRecord[];
  /** Rows with more or fewer cells than the header: none of `records`. */
  ragged: Refusal[];
  /** What a person is to know of how it was read. */
  notes: string[];
}

/** More columns than a person names. */
const columnsMost = 256;

/**
 * A table of named columns out of the bytes or the text of a CSV file. Nothing in it is evaluated.
 *
 * @param given.content - the file's bytes, or its text where that is known already
 * @param given.file - its name, for refusals
 * @param form - the columns known and needed; names are compared without case and without the blanks around them
 * @returns columns, rows with the file's line of each, what is unknown, and rows of the wrong length
 * @throws RefusedError unreadable-file, too-large, missing-field (a column that is needed, or a column without a name), duplicate-key (a
 *   column twice); each names the file
 */
export function readTable(given: { content: Uint8Array | string; file?: string }, form: TableForm): Table {
  const origin = given.file === undefined ? {} : { file: given.file };
  try {
    return tableOf(given, form);
  } catch (error) {
    throw error instanceof RefusedError ? error.within(origin) : error;
  }
}

function tableOf({ content, file }: { content: Uint8Array | string; file?: string }, form: TableForm): Table {
  const { text, encoding } =
    typeof content === 'string' ? { text: content.replace(/^\uFEFF/, ''), encoding: null } : decodeBytes(content);
  if (text.includes('\0'))
    throw new RefusedError({ code: 'unreadable-file', message: 'The table holds a NUL character.' });
  const spelled = new Map(form.known.map((name) => [squeezed(name), name]));
  const split = splitTable(text, (names) => names.filter((name) => spelled.has(squeezed(name))).length);
  const [header, ...rows] = split.records;
  if (header === undefined)
    throw new RefusedError({ code: 'missing-field', message: 'The table is empty: it has no header.' });
  const { cells, width } = headerCells(header, rows);
  const columns = new Map<string, number>();
  const unknownColumns: Table['unknownColumns'] = [];
  for (const [at, name] of cells.entries()) {
    const known = spelled.get(squeezed(name));
    if (known === undefined) unknownColumns.push({ name, at });
    else columns.set(known, at);
  }
  refuseMissing(columns, form, header.row, split.delimiter);
  const { records, ragged } = sorted(rows, { width, file });
  return {
    file: file ?? null,
    encoding,
    delimiter: split.delimiter,
    columns,
    unknownColumns,
    records,
    ragged,
    notes: encoding === 'CP1252' ? ['The file is no UTF-8: it is read as CP1252.'] : [],
  };
}

function squeezed(name: string): string {
  return name.trim().toLowerCase();
}

/** The header's names. Empty ones at its end are no columns where nothing stands under them either. */
function headerCells(header: SheetRecord, rows: readonly SheetRecord[]): { cells: string[]; width: number } {
  const width = header.cells.length;
  if (width > columnsMost) {
    throw new RefusedError({
      code: 'too-large',
      message: `The header has ${width} columns; at most ${columnsMost} are read.`,
      row: header.row,
    });
  }
  const cells = header.cells.map((cell) => cell.trim());
  while (cells.at(-1) === '' && rows.every((row) => (row.cells[cells.length - 1] ?? '').trim() === '')) cells.pop();
  const seen = new Set<string>();
  for (const [at, name] of cells.entries()) {
    if (name === '') {
      throw new RefusedError({
        code: 'missing-field',
        message: `Column ${at + 1} of the header has no name: one cell for each column is asked for, none of them merged.`,
        row: header.row,
      });
    }
    if (seen.has(squeezed(name))) {
      throw new RefusedError({
        code: 'duplicate-key',
        message: `The header names the column "${name}" twice.`,
        row: header.row,
        field: name,
      });
    }
    seen.add(squeezed(name));
  }
  return { cells, width };
}

function refuseMissing(
  columns: ReadonlyMap<string, number>,
  { needed }: TableForm,
  row: number,
  delimiter: Delimiter,
): void {
  const missing = needed.map((set) => set.filter((name) => !columns.has(name)));
  if (missing.length === 0 || missing.some((names) => names.length === 0)) return;
  const fewest = missing.toSorted((a, b) => a.length - b.length)[0] ?? [];
  const sets = needed.map((set) => set.join(', ')).join('; or ');
  throw new RefusedError({
    code: 'missing-field',
    message: `The header, read with the ${delimiterNames[delimiter]} as delimiter, lacks ${fewest.map((name) => `"${name}"`).join(', ')}. Needed are: ${sets}.`,
    row,
    ...(fewest[0] === undefined ? {} : { field: fewest[0] }),
  });
}

function sorted(rows: readonly SheetRecord[], { width, file }: { width: number; file: string | undefined }) {
  const records: SheetRecord[] = [];
  const ragged: Refusal[] = [];
  for (const record of rows) {
    const { row, cells } = record;
    if (cells.length === width) records.push(record);
    else {
      ragged.push({
        code: 'wrong-shape',
        message: `The row has ${cells.length} cells, the header ${width}.`,
        ...(file === undefined ? {} : { file }),
        row,
        value: cells.length,
      });
    }
  }
  return { records, ragged };
}
