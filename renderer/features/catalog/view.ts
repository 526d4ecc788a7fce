import { useState } from 'react';
import type { ColumnFilter } from './table/filters.ts';
import type { Sorting } from './rowOrder.ts';
import { segments } from './words.ts';
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

/** How columns were put outlives the page; it is no record, and without it the table has its usual ones. */
const keptAs = 'bagwright-catalog-columns';

const isColumn = (value: unknown): value is ChosenColumn =>
  typeof value === 'object' &&
  value !== null &&
  'key' in value &&
  typeof value.key === 'string' &&
  (!('widthPx' in value) || typeof value.widthPx === 'number');

function keptColumns(): CatalogView['columns'] {
  try {
    const read: unknown = JSON.parse(localStorage.getItem(keptAs) ?? '{}');
    if (typeof read !== 'object' || read === null) return {};
    return Object.fromEntries(
      Object.entries(read).flatMap(([segment, columns]: [string, unknown]) =>
        segments.some(({ value }) => value === segment) && Array.isArray(columns) && columns.every(isColumn)
          ? [[segment, columns]]
          : [],
      ),
    );
  } catch {
    return {};
  }
}

function keepColumns(columns: CatalogView['columns']): void {
  try {
    localStorage.setItem(keptAs, JSON.stringify(columns));
  } catch {
    // Without room for them they hold as long as the page does.
  }
}

/** As a page that is opened anew begins. */
const begun = (): CatalogView => ({ ...firstView, columns: keptColumns() });

let remembered = begun();

export function useCatalogView(): [CatalogView, (change: Partial<CatalogView>) => void] {
  const [view, setView] = useState(remembered);
  const look = (change: Partial<CatalogView>): void =>
    setView((before) => {
      remembered = { ...before, ...change };
      if (change.columns !== undefined) keepColumns(change.columns);
      return remembered;
    });
  return [view, look];
}

/** Back to how a page begins that is opened anew; `everything`: the columns that were put too. */
export function forgetCatalogView({ everything }: { everything: boolean } = { everything: true }): void {
  if (everything) keepColumns({});
  remembered = begun();
}
