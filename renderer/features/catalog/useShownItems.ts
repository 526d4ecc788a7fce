import { startTransition, useDeferredValue, useEffect, useMemo, useRef, useState } from 'react';
import type { Item } from '../../../shared-types/records/item.ts';
import { breathe } from '../../store/breathe.ts';
import type { ItemColumn } from './columns.ts';
import { createOrder } from './rowOrder.ts';
import { nearWords } from './searchNear.ts';
import { matches, matchesNearly, searchText, vocabulary, wordsOf } from './searchText.ts';
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

/** What the search before found: the next key of it only has to look there. */
interface Before {
  of: readonly Item[];
  words: readonly string[];
  exact: readonly Item[];
}

const narrows = (words: readonly string[], before: readonly string[]): boolean =>
  before.length > 0 && before.every((old) => words.some((word) => word.startsWith(old)));

/** The rows that hold the words, looked for a slice at a time; null where it was stopped. */
async function sieve(
  x: { rows: readonly Item[]; search: string; before: Before | null },
  stopped: () => boolean,
): Promise<{ found: Item[]; near: number; before: Before } | null> {
  const { rows, search, before } = x;
  const words = wordsOf(search);
  let until = performance.now() + sliceMs;
  const due = async (at: number): Promise<boolean> => {
    if (at % 256 !== 0 || performance.now() < until) return false;
    await breathe();
    until = performance.now() + sliceMs;
    return stopped();
  };
  const within = before !== null && before.of === rows && narrows(words, before.words) ? before.exact : rows;
  const exact: Item[] = [];
  for (let at = 0; at < within.length; at += 1) {
    if (await due(at)) return null;
    const item = within[at];
    if (item !== undefined && matches(searchText(item), words)) exact.push(item);
  }
  const next = { of: rows, words, exact };
  const near = exact.length < nearBelow ? nearWords(words, vocabulary) : null;
  if (near === null) return { found: exact, near: 0, before: next };
  const known = new Set(exact);
  const found = [...exact];
  for (let at = 0; at < rows.length; at += 1) {
    if (await due(at)) return null;
    const item = rows[at];
    if (item !== undefined && !known.has(item) && matchesNearly(item, near)) found.push(item);
  }
  return { found, near: found.length - exact.length, before: next };
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
  const before = useRef<Before | null>(null);
  useEffect(() => {
    if (!asks) return undefined;
    let left = false;
    void sieve({ rows: sorted.rows, search, before: before.current }, () => left).then((sifted) => {
      if (sifted === null || left) return;
      before.current = sifted.before;
      startTransition(() => setSieved({ search, rows: sifted.found, near: sifted.near }));
    });
    return () => {
      left = true;
    };
  }, [sorted, search, asks]);
  // Until the rows of this search are there, those of the one before stay; the last key taken away is painted before all rows are back.
  const isCleared = useDeferredValue(!asks);
  const last = asks || !isCleared ? sieved : null;
  return useMemo(() => {
    const found = last?.rows ?? sorted.rows;
    const live = (rows: readonly Item[]): readonly Item[] => (showRetired ? rows : liveOf(rows));
    const shown = live(found);
    const near = last === null || last.near === 0 ? 0 : live(found.slice(-last.near)).length;
    const { onShelf, ofKind } = sorted;
    return { shown, near, onShelf, ofKind, retiredFound: found.length - shown.length, search: last?.search ?? '' };
  }, [sorted, last, showRetired]);
}

const liveLists = new WeakMap<readonly Item[], readonly Item[]>();

/** Those of a list that are not retired; the same list for the same one, so that a table which has drawn it knows it again. */
function liveOf(rows: readonly Item[]): readonly Item[] {
  const known = liveLists.get(rows);
  if (known !== undefined) return known;
  const live = rows.filter(({ retired }) => !retired);
  liveLists.set(rows, live);
  return live;
}
