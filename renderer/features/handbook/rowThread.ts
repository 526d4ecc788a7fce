import { RefusedError } from '../../engine/errors.ts';
import type { AnyTable } from '../../engine/handbook/tables.ts';
import { readThread } from '../../engine/thread/index.ts';
import type { Thread } from '../../engine/thread/index.ts';
import type { PrintedRow } from './tableColumns.ts';

/** A text as a thread; null where it is none. */
export function threadIn(text: string): Thread | null {
  try {
    return readThread(text);
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    return null;
  }
}

/** The thread a row is of; null where the table is of something else, or prints a diameter alone. */
export function rowThread(table: AnyTable, row: PrintedRow): Thread | null {
  const { thread, size, threads_per_inch: perInch } = row;
  if (typeof thread === 'string') return threadIn(thread);
  if (typeof size !== 'string') return null;
  if (typeof perInch === 'number')
    return threadIn(`${Number(row['major_diameter_in']) < 0.25 ? '#' : ''}${size}-${perInch}`);
  return table.topic === 'head and wrench sizes' ? null : threadIn(size);
}
