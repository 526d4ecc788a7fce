import type { Refusal } from '../../../shared-types/errors.ts';
import { RefusedError } from '../errors.ts';
import { decodeBytes, type Encoding } from './decodeBytes.ts';
import { delimiterNames, type Delimiter } from './delimiter.ts';
import { headerNames, squeezed } from './headerNames.ts';
import { splitTable, type Share, type SheetRecord } from './splitTable.ts';

/** What a table is to hold. */
export interface TableForm {
  /** Every column that is read, as its header spells it. */
  known: readonly string[];
  /** The columns it cannot do without: one of several sets. */
  needed: readonly (readonly string[])[];
}

export interface TableContent {
  content: Uint8Array | string;
  file?: string;
  share?: Share;
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
  /** The rows, taken apart as they are asked for, anew each time. */
  records: Iterable<SheetRecord>;
  /** The same of the whole file, where `records` are but a share of it. */
  wholeFile: Iterable<SheetRecord>;
  /** Rows with more or fewer cells than the header: none of `records`, and found while those are gone through. */
  ragged: Refusal[];
  /** What a person is to know of how it was read. */
  notes: string[];
}

/**
 * A table of named columns out of the bytes or the text of a CSV file. Nothing in it is evaluated.
 *
 * @param given.content - the file's bytes, or its text where that is known already
 * @param given.file - its name, for refusals
 * @param given.share - which part of its rows `records` are; all where it is not given
 * @param form - the columns known and needed; names are compared without case and without the blanks around them
 * @returns columns, rows with the file's line of each, what is unknown, and rows of the wrong length
 * @throws RefusedError unreadable-file, too-large, missing-field (a column that is needed, or a column without a name), duplicate-key (a
 *   column twice); each names the file
 */
export function readTable(given: TableContent, form: TableForm): Table {
  const origin = given.file === undefined ? {} : { file: given.file };
  try {
    return tableOf(given, form);
  } catch (error) {
    throw error instanceof RefusedError ? error.within(origin) : error;
  }
}

function tableOf({ content, file, share }: TableContent, form: TableForm): Table {
  const { text, encoding } =
    typeof content === 'string' ? { text: content.replace(/^\uFEFF/, ''), encoding: null } : decodeBytes(content);
  if (text.includes('\0'))
    throw new RefusedError({ code: 'unreadable-file', message: 'The table holds a NUL character.' });
  const spelled = new Map(form.known.map((name) => [squeezed(name), name]));
  const split = splitTable(text, (names) => names.filter((name) => spelled.has(squeezed(name))).length);
  const { header } = split;
  if (header === null)
    throw new RefusedError({ code: 'missing-field', message: 'The table is empty: it has no header.' });
  const cells = headerNames(header, split.records);
  const width = header.cells.length;
  const columns = new Map<string, number>();
  const unknownColumns: Table['unknownColumns'] = [];
  for (const [at, name] of cells.entries()) {
    const known = spelled.get(squeezed(name));
    if (known === undefined) unknownColumns.push({ name, at });
    else columns.set(known, at);
  }
  refuseMissing(columns, form, header.row, split.delimiter);
  const ragged: Refusal[] = [];
  return {
    file: file ?? null,
    encoding,
    delimiter: split.delimiter,
    columns,
    unknownColumns,
    records: { [Symbol.iterator]: () => wholeRows(split.records(share), { width, file, ragged }) },
    wholeFile: { [Symbol.iterator]: () => wholeRows(split.records(), { width, file, ragged: [] }) },
    ragged,
    notes: encoding === 'CP1252' ? ['The file is no UTF-8: it is read as CP1252.'] : [],
  };
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

function* wholeRows(
  rows: Iterable<SheetRecord>,
  { width, file, ragged }: { width: number; file: string | undefined; ragged: Refusal[] },
): Generator<SheetRecord> {
  const origin = file === undefined ? {} : { file };
  ragged.length = 0;
  try {
    for (const record of rows) {
      const { row, cells } = record;
      if (cells.length === width) {
        yield record;
        continue;
      }
      const message = `The row has ${cells.length} cells, the header ${width}.`;
      ragged.push({ code: 'wrong-shape', message, ...origin, row, value: cells.length });
    }
  } catch (error) {
    throw error instanceof RefusedError ? error.within(origin) : error;
  }
}
