import { useMemo, useState } from 'react';
import type { Item } from '../../../shared-types/records/item.ts';
import type { ItemColumn } from './columns.ts';
import { createOrder } from './rowOrder.ts';
import { matches, searchText, wordsOf } from './searchText.ts';
import type { CatalogView } from './view.ts';

export interface ShownItems {
  shown: readonly Item[];
  /** On the shelf, retired ones only where they are wanted. */
  onShelf: number;
  /** Of the kind chosen. */
  ofKind: number;
  /** Retired ones that the search would find, while they are not shown. */
  retiredFound: number;
}

/** The rows in their order: sorted once for each change of the catalog, sieved for each key of the search. */
export function useShownItems(
  items: ReadonlyMap<string, Item>,
  columns: readonly ItemColumn[],
  { view, shelf }: { view: CatalogView; shelf: string | null },
): ShownItems {
  const { search, segment, sorting, showRetired } = view;
  const [order] = useState(createOrder);
  const column = columns.find(({ key }) => key === sorting.key) ?? columns[0];
  const sorted = useMemo(() => {
    const ofShelf = [...items.values()].filter((item) => shelf === null || item.shelf === shelf);
    const ofKind = segment === 'all' ? ofShelf : ofShelf.filter(({ kind }) => kind === segment);
    const live = (list: readonly Item[]): number => list.reduce((sum, { retired }) => sum + (retired ? 0 : 1), 0);
    return {
      rows: column === undefined ? ofKind : order(ofKind, column, sorting.down),
      onShelf: showRetired ? ofShelf.length : live(ofShelf),
      ofKind: showRetired ? ofKind.length : live(ofKind),
    };
  }, [items, shelf, segment, column, sorting.down, showRetired, order]);
  return useMemo(() => {
    const words = wordsOf(search);
    const found = words.length === 0 ? sorted.rows : sorted.rows.filter((item) => matches(searchText(item), words));
    const shown = showRetired ? found : found.filter(({ retired }) => !retired);
    const { onShelf, ofKind } = sorted;
    return { shown, onShelf, ofKind, retiredFound: found.length - shown.length };
  }, [sorted, search, showRetired]);
}
