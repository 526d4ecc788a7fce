import { RefusedError } from '../../engine/errors.ts';
import type { AnyTable } from '../../engine/handbook/tables.ts';
import { readThread } from '../../engine/thread/index.ts';
import type { Thread } from '../../engine/thread/index.ts';
import { quantityIn } from '../../engine/units/index.ts';
import { rowName, rowsOf, type PrintedRow } from './tableColumns.ts';

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

/** The row of a table for a thread, by its name: of the same pitch where the table prints any, else of its diameter. */
export function rowNameOfThread(table: AnyTable, thread: Thread): string | undefined {
  const rows = rowsOf(table);
  const sameSize = (mm: number): boolean => Math.abs(mm - thread.majorMm) <= 1e-6;
  const exact = rows.findIndex((row) => {
    const own = rowThread(table, row);
    return own !== null && own.system === thread.system && sameSize(own.majorMm) && own.pitchMm === thread.pitchMm;
  });
  const at = exact >= 0 ? exact : rows.findIndex((row) => sameSize(diameterMm(row) ?? Number.NaN));
  return at < 0 ? undefined : rowName(table, at);
}

/** Diameter of a row that prints a size without a pitch. */
function diameterMm(row: PrintedRow): number | null {
  const text = row['thread'] ?? row['size'];
  if (typeof row['nominal_diameter_in'] === 'number') return row['nominal_diameter_in'] * 25.4;
  if (typeof text !== 'string') return null;
  const whole = threadIn(text);
  if (whole !== null) return whole.majorMm;
  try {
    return quantityIn(`${text} in`, 'length', 'mm');
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    return null;
  }
}
