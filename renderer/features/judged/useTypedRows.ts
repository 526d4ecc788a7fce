import { useMemo } from 'react';
import type { CalloutList, KeptCallout } from '../../../shared-types/records/judgedLists.ts';

export interface TypedRows {
  columns: readonly string[];
  /** In the order of the columns; null where the row is not kept. */
  cellsOf: (key: string) => string[] | null;
}

/** The rows of a kept list as they were typed, for whoever copies them; undefined where there is no list. */
export function useTypedRows(list: CalloutList | null, rows: readonly KeptCallout[]): TypedRows | undefined {
  return useMemo(() => {
    if (list === null) return undefined;
    const { columns } = list;
    const byKey = new Map(rows.map((row) => [row.id, row]));
    return {
      columns,
      cellsOf: (key) => {
        const row = byKey.get(key);
        return row === undefined ? null : columns.map((name) => row.cells[name] ?? '');
      },
    };
  }, [list, rows]);
}
