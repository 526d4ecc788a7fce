import { allTables } from '../../engine/handbook/index.ts';
import type { AnyTable } from '../../engine/handbook/tables.ts';
import { rowsOf } from './tableColumns.ts';

export interface Twin {
  table: AnyTable;
  index: number;
}

const nameOf = (value: unknown): string => String(value).replaceAll(/\s+/g, '').toLowerCase();

/** Rows of other tables of the same subject that begin with the same class, grade or size; threads have a sheet of their own. */
export function twinsOf(table: AnyTable, index: number): Twin[] {
  const [key, first] = Object.entries(rowsOf(table)[index] ?? {})[0] ?? [];
  if (key === undefined || key === 'thread' || key === 'size' || typeof first !== 'string') return [];
  return allTables
    .filter((other) => other !== table && other.topic === table.topic)
    .flatMap((other) =>
      rowsOf(other).flatMap((row, at) => {
        const [ofKey, value] = Object.entries(row)[0] ?? [];
        return ofKey === key && nameOf(value) === nameOf(first) ? [{ table: other, index: at }] : [];
      }),
    );
}
