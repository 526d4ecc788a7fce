import { useMemo } from 'react';
import { columnsOf } from '../columns.ts';
import type { ItemColumn } from '../columns.ts';
import type { CatalogView } from '../view.ts';
import { moreColumns } from './moreColumns.ts';

export interface ColumnsAtHand {
  /** Those shown, in their order and as wide as they were put. */
  shown: readonly ItemColumn[];
  /** Every column there is for the kind at hand: those shown first. */
  all: readonly ItemColumn[];
}

/** The columns of the table: what suits the kind, or what the person has put together. */
export function useColumns({ segment, columns }: CatalogView, manyShelves: boolean): ColumnsAtHand {
  const chosen = columns[segment];
  return useMemo(() => {
    const usual = columnsOf(segment, manyShelves);
    const every = [...usual, ...moreColumns(segment, usual)];
    if (chosen === undefined) return { shown: usual, all: every };
    const shown = chosen.flatMap(({ key, widthPx }) => {
      const column = every.find((one) => one.key === key);
      if (column === undefined) return [];
      return widthPx === undefined ? [column] : [{ ...column, width: `${widthPx}px` }];
    });
    // A table without any column could not be taken in hand.
    const least = shown.length === 0 ? usual.slice(0, 1) : shown;
    return { shown: least, all: [...least, ...every.filter(({ key }) => !least.some((one) => one.key === key))] };
  }, [segment, manyShelves, chosen]);
}
