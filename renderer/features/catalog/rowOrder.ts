import type { Item } from '../../../shared-types/records/item.ts';
import type { ItemColumn } from './columns.ts';

export interface Sorting {
  key: string;
  down: boolean;
}

/**
 * Sorts rows and remembers how they stood: after one change of many thousand rows they are all but sorted, and a sort of
 * those costs next to nothing. Keys are made once for each version of a record.
 */
export function createOrder(): (rows: Iterable<Item>, column: ItemColumn, down: boolean) => Item[] {
  let before: { key: string; down: boolean; place: Map<string, number> } | null = null;
  const keys = new Map<string, WeakMap<Item, number | string>>();
  const keyOf = (item: Item, column: ItemColumn): number | string => {
    const ofColumn = keys.get(column.key) ?? new WeakMap<Item, number | string>();
    keys.set(column.key, ofColumn);
    const known = ofColumn.get(item);
    if (known !== undefined) return known;
    const key = column.sortKey(item);
    ofColumn.set(item, key);
    return key;
  };
  return (rows, column, down) => {
    const list = [...rows];
    const stood = before !== null && before.key === column.key && before.down === down ? before.place : null;
    const start = stood === null ? list : asBefore(list, stood);
    const keyed = start.map((item) => ({ item, key: keyOf(item, column), code: item.code }));
    const turn = down ? -1 : 1;
    keyed.sort((a, b) => {
      // What has no value stands last, whichever way the column runs.
      const lacksA = a.key === Infinity || a.key === '\uffff';
      const lacksB = b.key === Infinity || b.key === '\uffff';
      if (lacksA !== lacksB) return lacksA ? 1 : -1;
      if (a.key !== b.key) return a.key < b.key ? -turn : turn;
      return a.code < b.code ? -1 : a.code > b.code ? 1 : 0;
    });
    const sorted = keyed.map(({ item }) => item);
    before = { key: column.key, down, place: new Map(sorted.map(({ id }, index) => [id, index])) };
    return sorted;
  };
}

/** Known rows where they stood, new ones after them: one pass, no comparison. */
function asBefore(rows: Item[], place: ReadonlyMap<string, number>): Item[] {
  const slots: (Item | undefined)[] = Array.from({ length: place.size });
  const added: Item[] = [];
  for (const row of rows) {
    const at = place.get(row.id);
    if (at === undefined) added.push(row);
    else slots[at] = row;
  }
  return [...slots.filter((row) => row !== undefined), ...added];
}
