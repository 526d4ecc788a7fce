import { useEffect, useMemo, useState } from 'react';
import type { Item } from '../../../shared-types/records/item.ts';
import { breathe } from '../../store/breathe.ts';
import type { ItemColumn } from './columns.ts';
import { createOrder } from './rowOrder.ts';
import { nearWords } from './searchNear.ts';
import { foldedCode, matches, matchesNearly, searchText, vocabulary, wordsOf } from './searchText.ts';
import type { CatalogView } from './view.ts';

export interface ShownItems {
  shown: readonly Item[];
  /** How many of them are only nearly what was typed; they stand last. */
  near: number;
  /** On the shelf, retired ones only where they are wanted. */
  onShelf: number;
  /** Of the kind chosen. */
  ofKind: number;
  /** Retired ones that the search would find, while they are not shown. */
  retiredFound: number;
  /** The search these are the rows of. */
  search: string;
}

/** From so many exact ones on nobody asks for those that are nearly so. */
const nearBelow = 50;
/** So long the page works on before it looks whether the hand wants something. */
const sliceMs = 6;

/** The rows that hold the words, looked for a slice at a time; null where it was stopped. */
async function sieve(rows: readonly Item[], search: string, stopped: () => boolean): Promise<[Item[], number] | null> {
  const words = wordsOf(search);
  let until = performance.now() + sliceMs;
  const due = async (at: number): Promise<boolean> => {
    if (at % 256 !== 0 || performance.now() < until) return false;
    await breathe();
    until = performance.now() + sliceMs;
    return stopped();
  };
  const found: Item[] = [];
  const others: Item[] = [];
  for (let at = 0; at < rows.length; at += 1) {
    if (await due(at)) return null;
    const item = rows[at];
    if (item !== undefined) (matches(searchText(item), words) ? found : others).push(item);
  }
  const near = found.length < nearBelow ? nearWords(words, vocabulary) : null;
  if (near === null) return [found, 0];
  const exact = found.length;
  for (let at = 0; at < others.length; at += 1) {
    if (await due(at)) return null;
    const item = others[at];
    if (item !== undefined && matchesNearly(searchText(item), foldedCode(item), near)) found.push(item);
  }
  return [found, found.length - exact];
}

interface Sieved {
  search: string;
  rows: readonly Item[];
  near: number;
}

export interface ShownAsked {
  view: CatalogView;
  /** Empty as long as the texts are not prepared. */
  search: string;
  shelf: string | null;
  /** What the columns' filters let through; null for everything. */
  passes: ((item: Item) => boolean) | null;
}

/** The rows in their order: sorted once for each change of the catalog, sieved for each key of the search. */
export function useShownItems(
  items: ReadonlyMap<string, Item>,
  columns: readonly ItemColumn[],
  { view, search, shelf, passes }: ShownAsked,
): ShownItems {
  const { segment, sorting, showRetired } = view;
  const [order] = useState(createOrder);
  const column = columns.find(({ key }) => key === sorting.key) ?? columns[0];
  const sorted = useMemo(() => {
    const ofShelf = [...items.values()].filter((item) => shelf === null || item.shelf === shelf);
    const ofKind = segment === 'all' ? ofShelf : ofShelf.filter(({ kind }) => kind === segment);
    const live = (list: readonly Item[]): number => list.reduce((sum, { retired }) => sum + (retired ? 0 : 1), 0);
    const passed = passes === null ? ofKind : ofKind.filter(passes);
    return {
      rows: column === undefined ? passed : order(passed, column, sorting.down),
      onShelf: showRetired ? ofShelf.length : live(ofShelf),
      ofKind: showRetired ? ofKind.length : live(ofKind),
    };
  }, [items, shelf, segment, column, sorting.down, showRetired, order, passes]);
  const asks = search.trim() !== '';
  const [sieved, setSieved] = useState<Sieved | null>(null);
  useEffect(() => {
    if (!asks) return undefined;
    let left = false;
    void sieve(sorted.rows, search, () => left).then((found) => {
      if (found !== null && !left) setSieved({ search, rows: found[0], near: found[1] });
    });
    return () => {
      left = true;
    };
  }, [sorted, search, asks]);
  // Until the rows of this search are there, those of the one before stay.
  const last = asks ? sieved : null;
  return useMemo(() => {
    const found = last?.rows ?? sorted.rows;
    const live = (rows: readonly Item[]): readonly Item[] =>
      showRetired ? rows : rows.filter(({ retired }) => !retired);
    const shown = live(found);
    const near = last === null || last.near === 0 ? 0 : live(found.slice(-last.near)).length;
    const { onShelf, ofKind } = sorted;
    return { shown, near, onShelf, ofKind, retiredFound: found.length - shown.length, search: last?.search ?? '' };
  }, [sorted, last, showRetired]);
}
