import { RefusedError } from '../../errors.ts';
import { decodeBytes } from '../decodeBytes.ts';
import type { Grid } from '../grid.ts';
import { utf8Text } from '../utf8.ts';
import type { CellTexts } from './cellReading.ts';
import { dateStyles } from './dateStyles.ts';
import { unreadable } from './refusals.ts';
import { sharedStrings } from './sharedStrings.ts';
import { sheetGrid } from './sheetGrid.ts';
import { unpackEntry } from './unpackEntry.ts';
import { relations, workbookSheets, type SheetName } from './workbookParts.ts';
import { worksheet } from './worksheet.ts';
import { zipDirectory } from './zipDirectory.ts';
import type { ZipEntry } from './zipEntry.ts';

export interface Workbook {
  sheets: SheetName[];
  /** What a person is to know of it before a sheet is read. */
  notes: string[];
  /**
   * One sheet as a table of texts.
   *
   * @param index - of `sheets`
   * @param headerRow - the sheet's row the header stands in; null for the first that is not blank
   * @throws RefusedError as sheetGrid does
   */
  read(index: number, headerRow: number | null): Grid;
}

/**
 * A workbook (.xlsx), its directory looked through before anything of it is unpacked. No formula is evaluated, no link followed, no
 * macro read.
 *
 * @param bytes - the whole file
 * @param file - its name, for refusals
 * @throws RefusedError unreadable-file, too-large; each names the file
 */
export function openWorkbook(bytes: Uint8Array, file: string): Workbook {
  return inFile(file, () => opened(bytes, file));
}

function inFile<T>(file: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    throw error instanceof RefusedError ? error.within({ file }) : error;
  }
}

function opened(bytes: Uint8Array, file: string): Workbook {
  const entries = zipDirectory(bytes);
  const text = (path: string): string | null => {
    const entry = entries.get(path);
    return entry === undefined ? null : textOf(unpackEntry(bytes, entry), path);
  };
  const root = relations(text('_rels/.rels') ?? '', '');
  const path = root.find(({ kind }) => kind === 'officeDocument')?.path ?? 'xl/workbook.xml';
  const xml = text(path);
  if (xml === null) throw unreadable('it is a packed file, and no workbook.');
  const folder = path.slice(0, Math.max(0, path.lastIndexOf('/')));
  const links = relations(text(`${folder}/_rels/${path.slice(folder.length + 1)}.rels`) ?? '', folder);
  const pathOf = (kind: string): string | undefined => links.find((link) => link.kind === kind)?.path;
  const worksheets = links.filter(({ kind }) => kind === 'worksheet');
  const { sheets, dateSystem } = workbookSheets(xml, new Map(worksheets.map((link) => [link.id, link.path])));
  let known: CellTexts | null = null;
  const knownTexts = (): CellTexts => {
    const read = <T>(kind: string, reader: (xml: string) => T[]): T[] => {
      const part = text(pathOf(kind) ?? '');
      return part === null ? [] : reader(part);
    };
    known ??= { strings: read('sharedStrings', sharedStrings), dates: read('styles', dateStyles), dateSystem };
    return known;
  };
  return {
    sheets,
    notes: notesOf(entries, sheets),
    read: (index, headerRow) =>
      inFile(file, () => {
        const sheet = sheets[index];
        const part = sheet === undefined ? null : text(sheet.path);
        if (sheet === undefined || part === null) throw unreadable('it names a sheet that is not in it.');
        return sheetGrid(worksheet(part, sheet.name, knownTexts()), { file, sheet: sheet.name, headerRow });
      }),
  };
}

function textOf(bytes: Uint8Array, path: string): string {
  const marked = (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);
  const text = marked ? decodeBytes(bytes).text : utf8Text(bytes);
  if (text === null) throw unreadable('it is no UTF-8.', path);
  return text.startsWith('\uFEFF') ? text.slice(1) : text;
}

function notesOf(entries: ReadonlyMap<string, ZipEntry>, sheets: readonly SheetName[]): string[] {
  const holds = (part: RegExp): boolean => [...entries.keys()].some((name) => part.test(name));
  const hidden = sheets.filter(({ state }) => state === 'hidden').map(({ name }) => `"${name}"`);
  return [
    ...(hidden.length === 0
      ? []
      : [`${hidden.length === 1 ? 'A sheet is' : `${hidden.length} sheets are`} hidden: ${hidden.join(', ')}.`]),
    ...(holds(/vbaProject/i) ? ['The workbook has macros: they are not read.'] : []),
    ...(holds(/externalLinks?\//i) ? ['The workbook has links to other files: they are not followed.'] : []),
    ...(holds(/(?:connections|queryTables?)/i) ? ['The workbook fetches data from elsewhere: it is not asked.'] : []),
  ];
}
