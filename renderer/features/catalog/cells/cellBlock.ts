import type { Item } from '../../../../shared-types/records/item.ts';
import { blockPlaces } from '../../../components/RowGrid/block.ts';
import type { CellBlock } from '../../../components/RowGrid/block.ts';
import { cellText, harmless } from '../../../engine/sheet/cellText.ts';
import type { ItemColumn } from '../columns.ts';
import { rawText } from '../table/rawColumn.ts';
import { countOf } from '../words.ts';

/** A block as a spreadsheet takes it: texts as typed, whatever units are shown, none that it would run, and no header. */
export function copiedCells(block: CellBlock, rows: readonly Item[], columns: readonly ItemColumn[]): string {
  const places = blockPlaces(block, rows, columns);
  if (places === null) return '';
  return rows
    .slice(places.firstRow, places.lastRow + 1)
    .map((item) =>
      columns
        .slice(places.firstColumn, places.lastColumn + 1)
        .map(({ key }) => cellOut(rawText(key, item)))
        .join('\t'),
    )
    .join('\n');
}

/** What would part cells is set in quotation marks, as spreadsheets do. */
function cellOut(typed: string): string {
  const text = harmless(typed);
  return /[\t\r\n"]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** Cells out of a spreadsheet's clipboard, without the apostrophe that only keeps a text from being run. */
export function cellsIn(text: string): string[][] {
  return partedCells(text).map((cells) => cells.map((cell) => cellText(cell).text));
}

function partedCells(text: string): string[][] {
  const rows: string[][] = [[]];
  let cell = '';
  let quoted = false;
  const whole = text.replaceAll(/\r\n?/g, '\n').replace(/\n$/, '');
  for (let at = 0; at < whole.length; at += 1) {
    const sign = whole[at] ?? '';
    if (quoted) {
      if (sign !== '"') cell += sign;
      else if (whole[at + 1] === '"') {
        cell += '"';
        at += 1;
      } else quoted = false;
    } else if (sign === '"' && cell === '' && closes(whole, at)) quoted = true;
    else if (sign === '\t' || sign === '\n') {
      rows.at(-1)?.push(cell);
      cell = '';
      if (sign === '\n') rows.push([]);
    } else cell += sign;
  }
  rows.at(-1)?.push(cell);
  return rows;
}

/** A mark that another one closes at the end of a cell; an inch mark at the beginning of one is none. */
function closes(text: string, from: number): boolean {
  return /^"(?:[^"]|"")*"(?=[\t\n]|$)/.test(text.slice(from));
}

/** Which cells are in hand, in words. */
export function blockText(block: CellBlock, rows: readonly Item[], columns: readonly ItemColumn[]): string | null {
  const places = blockPlaces(block, rows, columns);
  if (places === null) return null;
  const down = places.lastRow - places.firstRow + 1;
  const across = places.lastColumn - places.firstColumn + 1;
  if (down > 1 || across > 1) return `${countOf(down, 'row')} × ${countOf(across, 'column')} in hand`;
  return `${columns[places.handColumn]?.label ?? ''} of ${rows[places.handRow]?.code ?? ''} in hand`;
}
