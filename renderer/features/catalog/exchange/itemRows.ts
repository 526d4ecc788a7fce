import type { Item, Shelf } from '../../../../shared-types/records/item.ts';
import { cellsOfItem, itemColumns, itemOfCells } from '../../../engine/catalog/index.ts';
import { RefusedError } from '../../../engine/errors.ts';
import type { KeptRow, ReadyRow } from '../../../engine/tableImport/index.ts';
import { breaths } from '../../../store/breathe.ts';
import type { Act, Proposal } from '../../../store/store.ts';
import { countOf } from '../words.ts';

/** A kept item as the import holds it against a file's row. */
export interface KeptItem extends KeptRow {
  item: Item;
}

/** Items as rows of texts, each made once for its version: a table that is tried again costs nothing anew. */
const rows = new WeakMap<Item, Record<string, string>>();

function rowOf(item: Item): Record<string, string> {
  const known = rows.get(item);
  if (known !== undefined) return known;
  const made = cellsOfItem(item);
  rows.set(item, made);
  return made;
}

/** Every kept item with its shelf's name, a slice at a time. */
export async function keptItems(
  items: ReadonlyMap<string, Item>,
  shelves: ReadonlyMap<string, Shelf>,
): Promise<KeptItem[]> {
  const breath = breaths();
  const kept: KeptItem[] = [];
  for (const item of items.values()) {
    await breath();
    kept.push({ item, cells: { shelf: shelves.get(item.shelf)?.name ?? '', ...rowOf(item) } });
  }
  return kept;
}

/** Rows of a file as one act: new items, and changed ones in the place of those they were found by. */
export async function bringInAct(x: {
  ready: readonly ReadyRow[];
  kept: readonly KeptItem[];
  shelves: ReadonlyMap<string, Shelf>;
  from: string;
  newId: () => string;
}): Promise<Act> {
  const breath = breaths();
  const keyOf = (shelf: string, code: string): string => JSON.stringify([shelf, code]);
  const before = new Map<string, Item>();
  for (const { item } of x.kept) {
    await breath();
    before.set(keyOf(item.shelf, item.code), item);
  }
  const byName = new Map([...x.shelves.values()].map(({ id, name }) => [name, id]));
  const proposals: Proposal[] = [];
  for (const { cells, row } of x.ready) {
    await breath();
    const { shelf: name = '', ...own } = cells;
    const shelf = byName.get(name);
    if (shelf === undefined)
      throw new RefusedError({ code: 'unknown-id', message: `The shelf “${name}” is gone.`, row });
    const held = before.get(keyOf(shelf, own['code'] ?? ''));
    const { item, faults } = itemOfCells(own, {
      ...{ id: held?.id ?? x.newId(), rev: held?.rev ?? 0, shelf },
      ...(held === undefined ? {} : { position: held.position, tag: held.tag }),
    });
    if (item === null) {
      const [{ column, message } = { column: 'code', message: 'is wrong' }] = faults;
      throw new RefusedError({ code: 'wrong-shape', message: `${column}: ${message}`, row, field: column });
    }
    proposals.push({ table: 'items', put: item });
  }
  const title = `Bring ${countOf(proposals.length, 'item')} in from ${x.from}`;
  return { action: 'bring-items', title: title.length > 190 ? `${title.slice(0, 189)}…` : title, proposals };
}

/** The columns that any of the items has something for, and the rows under them. */
export async function tableOfItems(
  items: readonly Item[],
  shelves: ReadonlyMap<string, Shelf>,
): Promise<{ columns: string[]; rows: string[][] }> {
  const breath = breaths();
  const filled = new Set<string>();
  for (const item of items) {
    await breath();
    for (const name in rowOf(item)) filled.add(name);
  }
  const names = itemColumns.map(({ name }) => name).filter((name) => filled.has(name));
  const table: string[][] = [];
  for (const item of items) {
    await breath();
    const cells = rowOf(item);
    table.push([shelves.get(item.shelf)?.name ?? '', ...names.map((name) => cells[name] ?? '')]);
  }
  return { columns: ['shelf', ...names], rows: table };
}
