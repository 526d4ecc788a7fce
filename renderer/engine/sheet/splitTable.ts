import Papa from 'papaparse';
import { RefusedError } from '../errors.ts';
import { blocksOf, recordEnd } from './blocks.ts';
import { delimiters, type Delimiter } from './delimiter.ts';

/** One record of a table; blank ones are left out. */
export interface SheetRecord {
  /** The file's line it begins on, the first being 1. */
  row: number;
  cells: string[];
}

export interface SplitTable {
  delimiter: Delimiter;
  /** Null where there is nothing but blank lines. */
  header: SheetRecord | null;
  /** What follows the header, or a share of it, taken apart as it is asked for, anew each time. */
  records: (share?: Share) => Generator<SheetRecord>;
}

/** A part of a table's rows, by the length of their text: all of them are from 0 to 1. Whole blocks of rows go to the part they begin in. */
export interface Share {
  from: number;
  to: number;
}

/** More lines than any job has, and no more than a machine holds. */
export const rowsMost = 500_000;

/**
 * A text taken apart into the cells of its records, by RFC 4180 and what spreadsheets make of it: delimited by comma, semicolon or tab,
 * lines ended by CRLF, LF or CR, cells with quotes around them, a first line "sep=;".
 *
 * @param text - the whole table, without byte order mark
 * @param named - how many of a header's names are known, which tells the delimiters apart
 * @throws RefusedError unreadable-file where quotes are not closed, or stand in the middle of a quoted cell; too-large; of what follows the
 *   header, when it is asked for
 */
export function splitTable(text: string, named: (names: readonly string[]) => number): SplitTable {
  const lines = text.includes('\r') ? text.replace(/\r\n?/g, '\n') : text;
  const start = startOf(lines);
  const delimiter = start.delimiter ?? delimiterOf(firstRecord(lines, start.index), named);
  const headerEnd = recordEnd(lines, start.index, delimiter);
  const parsed = [...recordsIn(lines.slice(0, headerEnd), { ...start, delimiter })];
  return {
    delimiter,
    header: parsed[0] ?? null,
    records: (share) =>
      recordsIn(lines, {
        ...(share === undefined ? {} : { share }),
        delimiter,
        index: headerEnd,
        row: start.row + breaksIn([lines.slice(start.index, headerEnd)]),
      }),
  };
}

function* recordsIn(
  lines: string,
  start: { index: number; row: number; delimiter: Delimiter; share?: Share },
): Generator<SheetRecord> {
  const { delimiter, share = { from: 0, to: 1 } } = start;
  let { row } = start;
  let count = 0;
  for (const { at, text: block } of blocksOf(lines, start.index, delimiter)) {
    const begins = (at - start.index) / (lines.length - start.index);
    if (begins >= share.to) return;
    if (begins < share.from) {
      row += 1 + breaksIn([block]);
      continue;
    }
    const { data, errors } = Papa.parse<string[]>(block, { delimiter, newline: '\n' });
    const error = errors.find(({ type }) => type === 'Quotes');
    if (block === '') row += 1;
    for (const [index, cells] of data.entries()) {
      if (error?.row === index) throw badQuotes(error.code, row);
      if (!isBlank(cells)) {
        count += 1;
        if (count > rowsMost) throw tooMany();
        yield { row, cells };
      }
      row += 1 + breaksIn(cells);
    }
    if (error !== undefined) throw badQuotes(error.code, row);
  }
}

function isBlank(cells: readonly string[]): boolean {
  for (const cell of cells) if (cell !== '' && cell.trim() !== '') return false;
  return true;
}

/** Where the header begins: blank lines before it are passed over, and a line that only names the delimiter. */
function startOf(lines: string): { index: number; row: number; delimiter: Delimiter | null } {
  let index = 0;
  let row = 1;
  let delimiter: Delimiter | null = null;
  for (;;) {
    const end = lines.indexOf('\n', index);
    const line = lines.slice(index, end === -1 ? lines.length : end);
    const told = row === 1 ? /^"?sep=([,;\t])"?$/i.exec(line)?.[1] : undefined;
    if (told !== undefined) delimiter = delimiters.find((known) => known === told) ?? null;
    else if (line.trim() !== '') return { index, row, delimiter };
    if (end === -1) return { index: lines.length, row, delimiter };
    index = end + 1;
    row += 1;
  }
}

/** A header longer than this is none. */
const headerMost = 100_000;

/** The text of the first record: to the first line break that stands in no quotes. */
function firstRecord(text: string, start: number): string {
  let quoted = false;
  for (let index = start; index < text.length && index < start + headerMost; index += 1) {
    const character = text[index];
    if (character === '"') quoted = !quoted;
    else if (character === '\n' && !quoted) return text.slice(start, index);
  }
  return text.slice(start, start + headerMost);
}

/** The delimiter that gives the header most of the names known, and of several the one that gives it most cells. */
function delimiterOf(header: string, named: (names: readonly string[]) => number): Delimiter {
  let best: { delimiter: Delimiter; known: number; cells: number } = { delimiter: ',', known: -1, cells: 0 };
  for (const delimiter of delimiters) {
    const names = Papa.parse<string[]>(header, { delimiter, newline: '\n' }).data[0] ?? [];
    const known = named(names);
    if (known > best.known || (known === best.known && names.length > best.cells))
      best = { delimiter, known, cells: names.length };
  }
  return best.delimiter;
}

function breaksIn(cells: readonly string[]): number {
  let breaks = 0;
  for (const cell of cells) for (let at = cell.indexOf('\n'); at !== -1; at = cell.indexOf('\n', at + 1)) breaks += 1;
  return breaks;
}

function badQuotes(code: string, row: number): RefusedError {
  return new RefusedError({
    code: 'unreadable-file',
    message:
      code === 'MissingQuotes'
        ? `Line ${row} begins a cell with a quotation mark that no other closes: the rest of the file cannot be told apart.`
        : `Line ${row} has a quotation mark in the middle of a quoted cell: write it twice.`,
    row,
  });
}

function tooMany(): RefusedError {
  return new RefusedError({
    code: 'too-large',
    message: `The table has more than ${rowsMost} rows, the most that is read.`,
  });
}
