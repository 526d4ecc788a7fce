import { useState } from 'react';
import type { ColumnFilter } from './table/filters.ts';
import type { Sorting } from './rowOrder.ts';
import type { Segment } from './words.ts';

export type Density = 'close' | 'ordinary' | 'gloved';

export const rowHeightsPx: Record<Density, number> = { close: 26, ordinary: 30, gloved: 84 };

/** One column as a person has put it: where it stands in the list, and how wide. */
export interface ChosenColumn {
  key: string;
  widthPx?: number | undefined;
}

/** How the person looks at the catalog; stays for as long as the page does. */
export interface CatalogView {
  search: string;
  segment: Segment;
  sorting: Sorting;
  density: Density;
  showRetired: boolean;
  /** By the column's key. */
  filters: Readonly<Record<string, ColumnFilter>>;
  /** By kind; of a kind that is not there, the columns that suit it. */
  columns: Readonly<Partial<Record<Segment, readonly ChosenColumn[]>>>;
}

const firstView: CatalogView = {
  search: '',
  segment: 'all',
  sorting: { key: 'code', down: false },
  density: 'ordinary',
  showRetired: false,
  filters: {},
  columns: {},
};

let remembered = firstView;

export function useCatalogView(): [CatalogView, (change: Partial<CatalogView>) => void] {
  const [view, setView] = useState(remembered);
  const look = (change: Partial<CatalogView>): void =>
    setView((before) => {
      remembered = { ...before, ...change };
      return remembered;
    });
  return [view, look];
}

/** Back to how everybody begins; for the page that is opened anew. */
export function forgetCatalogView(): void {
  remembered = firstView;
}
