import type { Item } from '../../../../shared-types/records/item.ts';
import { blockPlaces } from '../../../components/RowGrid/block.ts';
import type { CellBlock } from '../../../components/RowGrid/block.ts';
import { cellsOfItem, itemOfCells } from '../../../engine/catalog/index.ts';
import type { Act } from '../../../store/store.ts';
import type { ItemColumn } from '../columns.ts';
import { labelKey, rawColumn, rawText } from '../table/rawColumn.ts';
import { countOf, kindWords } from '../words.ts';

/** One cell that is pasted over. */
export interface PastedCell {
  item: Item;
  /** Of the screen's column. */
  label: string;
  before: string;
  after: string;
  /** Why it cannot be taken; null where it can. */
  why: string | null;
}

export interface Pasted {
  cells: PastedCell[];
  /** Those that say what is kept already. */
  same: number;
  /** What lies beyond the last row or column of the table. */
  outside: number;
  /** Items as they would be, without the cells that cannot be taken. */
  changed: Item[];
}

interface Asked {
  block: CellBlock;
  rows: readonly Item[];
  columns: readonly ItemColumn[];
}

/** Cells over the block in hand, from its upper left corner; one single cell over all of it. Nothing is written here. */
export function pastedChanges(pasted: readonly (readonly string[])[], { block, rows, columns }: Asked): Pasted {
  const found: Pasted = { cells: [], same: 0, outside: 0, changed: [] };
  const places = blockPlaces(block, rows, columns);
  if (places === null) return found;
  const fills = pasted.length === 1 && pasted[0]?.length === 1;
  const down = fills ? places.lastRow - places.firstRow + 1 : pasted.length;
  for (let y = 0; y < down; y += 1) {
    const line = fills
      ? Array<string>(places.lastColumn - places.firstColumn + 1).fill(pasted[0]?.[0] ?? '')
      : pasted[y];
    const item = rows[places.firstRow + y];
    if (line === undefined) continue;
    if (item === undefined) {
      found.outside += line.length;
      continue;
    }
    const over = line.flatMap((text, x) => {
      const column = columns[places.firstColumn + x];
      if (column !== undefined) return [{ column, text: text.trim() }];
      found.outside += 1;
      return [];
    });
    takeRow(item, over, found);
  }
  return found;
}

function takeRow(item: Item, over: readonly { column: ItemColumn; text: string }[], found: Pasted): void {
  const before = cellsOfItem(item);
  const cells = { ...before };
  const own: (PastedCell & { name: string })[] = [];
  for (const { column, text } of over) {
    const raw = rawColumn(column.key, item);
    const stood = rawText(column.key, item);
    if (text === stood) {
      found.same += 1;
      continue;
    }
    const told = { item, label: column.label, before: stood, after: text, name: raw?.name ?? '' };
    const why =
      column.key === labelKey
        ? 'a label’s number is given with its labels, and never changed'
        : raw === undefined
          ? `a ${kindWords[item.kind].toLowerCase()} has no such field here`
          : raw.name === 'code' || raw.name === 'kind'
            ? `the ${raw.name} is changed in the item’s form, with what names it`
            : null;
    own.push({ ...told, why });
    if (why === null) cells[told.name] = text;
  }
  const { id, rev, shelf, position, tag } = item;
  const head = { id, rev, shelf, position, tag };
  // Each refusal takes its cell back, and the rest is looked at again: what is left can be kept.
  for (;;) {
    const made = itemOfCells(cells, head);
    if (made.item !== null) {
      if (own.some(({ why }) => why === null)) found.changed.push(made.item);
      break;
    }
    const taken = own.filter(({ why }) => why === null);
    const bad = taken.filter(({ name }) => made.faults.some(({ column }) => column === name));
    // A fault where nothing was pasted came of what was: then the whole row is left as it is.
    const blamed = bad.length > 0 ? bad : taken;
    if (blamed.length === 0) break;
    for (const cell of blamed) {
      const fault = made.faults.find(({ column }) => column === cell.name) ?? made.faults[0];
      cell.why =
        fault === undefined ? 'cannot be kept' : bad.length > 0 ? fault.message : `${fault.column}: ${fault.message}`;
      cells[cell.name] = before[cell.name] ?? '';
    }
  }
  for (const { name: _name, ...cell } of own) found.cells.push(cell);
}

/** All of them as one act. */
export function pasteAct(pasted: Pasted): Act {
  const cells = pasted.cells.filter(({ why }) => why === null).length;
  return {
    action: 'edit-items',
    title: `Paste ${countOf(cells, 'cell')} into ${countOf(pasted.changed.length, 'item')}`,
    proposals: pasted.changed.map((put) => ({ table: 'items', put })),
  };
}
