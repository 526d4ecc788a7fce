import { useState } from 'react';
import type { Sorting } from './rowOrder.ts';
import type { Segment } from './words.ts';

export type Density = 'close' | 'middle' | 'roomy';

export const rowHeightsPx: Record<Density, number> = { close: 26, middle: 30, roomy: 38 };

/** How the person looks at the catalog; stays for as long as the page does. */
export interface CatalogView {
  search: string;
  segment: Segment;
  sorting: Sorting;
  density: Density;
  showRetired: boolean;
}

const firstView: CatalogView = {
  search: '',
  segment: 'all',
  sorting: { key: 'code', down: false },
  density: 'middle',
  showRetired: false,
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
