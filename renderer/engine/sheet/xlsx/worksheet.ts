import type { OddCell } from '../grid.ts';
import { cellName, cellRange, cellRef, type CellRange } from './cellRef.ts';
import { CellReading, type CellTexts } from './cellReading.ts';
import { cellsMost, columnsMost, rowsMost, spannedMost } from './limits.ts';
import { tooLarge, unreadable } from './refusals.ts';
import { attribute, scanXml } from './scanXml.ts';

/** A row of a sheet as texts; what is more than a text is told by column. */
export interface SheetRow {
  row: number;
  cells: string[];
  odd: ReadonlyMap<number, OddCell> | null;
}

export interface Worksheet {
  rows: SheetRow[];
  merged: CellRange[];
  hiddenRows: number;
  hasHiddenColumns: boolean;
}

/**
 * The rows of one sheet, as texts.
 *
 * @param xml - the sheet's part
 * @param known - the workbook's texts and styles
 * @throws RefusedError unreadable-file: cells that are nowhere, texts that there are none of, what a sheet cannot hold; too-large
 */
export function worksheet(xml: string, part: string, known: CellTexts): Worksheet {
  const sheet: Worksheet = { rows: [], merged: [], hiddenRows: 0, hasHiddenColumns: false };
  const cell = new CellReading(part, known);
  let row = 0;
  let cells: string[] = [];
  let odd: Map<number, OddCell> | null = null;
  let column = 0;
  let count = 0;
  const openRow = (attributes: string): void => {
    const given = attribute(attributes, 'r');
    const number = given === null ? row + 1 : Number(given);
    if (!Number.isInteger(number) || number <= row || number > 1_048_576)
      throw unreadable(`its row "${(given ?? '').slice(0, 20)}" is out of order.`, part);
    row = number;
    cells = [];
    odd = null;
    column = 0;
    if (/^(?:1|true)$/.test(attribute(attributes, 'hidden') ?? '')) sheet.hiddenRows += 1;
  };
  const openCell = (attributes: string): void => {
    const given = attribute(attributes, 'r');
    if (given !== null) {
      const at = cellRef(given);
      if (at === null || at.row !== row || at.column < column)
        throw unreadable(`its cell "${given.slice(0, 20)}" is out of order.`, part);
      column = at.column;
    }
    cell.begin(attributes);
  };
  const closeCell = (): void => {
    const read = cell.end(row, column);
    if (read.text !== '') {
      if (column >= columnsMost)
        throw tooLarge(`its cell ${cellName({ column, row })} stands beyond column ${columnsMost}.`, part);
      while (cells.length < column) cells.push('');
      cells.push(read.text);
      if (read.odd !== null) (odd ??= new Map()).set(column, read.odd);
      count += 1;
      if (count > cellsMost) throw tooLarge(`it has more than ${cellsMost} cells.`, part);
    }
    column += 1;
  };
  const closeRow = (): void => {
    if (cells.every((text) => text.trim() === '')) return;
    sheet.rows.push({ row, cells, odd });
    if (sheet.rows.length > rowsMost + 1) throw tooLarge(`it has more than ${rowsMost} rows.`, part);
  };
  scanXml(xml, part, {
    open(name, attributes) {
      if (name === 'c') openCell(attributes);
      else if (name === 'row') openRow(attributes);
      else if (name === 'dimension') refuseAbsurd(attribute(attributes, 'ref') ?? '', part);
      else if (name === 'mergeCell') sheet.merged.push(mergedRange(attribute(attributes, 'ref') ?? '', part));
      else if (name === 'col') sheet.hasHiddenColumns ||= /^(?:1|true)$/.test(attribute(attributes, 'hidden') ?? '');
      else cell.open(name);
    },
    close(name) {
      if (name === 'c') closeCell();
      else if (name === 'row') closeRow();
      else cell.close(name);
    },
    text: (text) => cell.add(text),
  });
  return sheet;
}

/** A sheet may say how far it reaches; who believes that makes room for it. */
function refuseAbsurd(text: string, part: string): void {
  if (text === '') return;
  const range = cellRange(text);
  if (range === null) throw unreadable(`it says it reaches over "${text.slice(0, 40)}", which is no range.`, part);
  const spanned = (range.to.row - range.from.row + 1) * (range.to.column - range.from.column + 1);
  if (spanned > spannedMost)
    throw tooLarge(`it says it reaches over ${text}, ${spanned} cells; at most ${spannedMost} are taken.`, part);
}

function mergedRange(text: string, part: string): CellRange {
  const range = cellRange(text);
  if (range === null) throw unreadable(`its merged cells "${text.slice(0, 40)}" are no range.`, part);
  return range;
}
