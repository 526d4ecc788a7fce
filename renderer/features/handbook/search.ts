import { allTables } from '../../engine/handbook/index.ts';
import type { AnyTable } from '../../engine/handbook/tables.ts';
import { isPrintedSize, isPrintedThread } from '../../engine/torqueTable/index.ts';
import type { Thread } from '../../engine/thread/index.ts';
import { RefusedError } from '../../engine/errors.ts';
import { rowsOf } from './tableColumns.ts';
import { rowThread, threadIn } from './rowThread.ts';

export interface FoundTable {
  table: AnyTable;
  /** Rows that hold what is sought; none where only the table's own words do. */
  rows: number[];
}

const fold = (text: string): string => text.normalize('NFKD').replaceAll(/\p{M}/gu, '').toLowerCase();

interface Indexed {
  table: AnyTable;
  words: string;
  rows: { words: string; thread: Thread | null; size: string | null }[];
}

let index: readonly Indexed[] | null = null;

/** Made at the first search: some hundred rows, folded once. */
function indexed(): readonly Indexed[] {
  index ??= allTables.map((table) => {
    const { title, number, edition, table: name, publisher } = table.source;
    return {
      table,
      words: fold(
        [title, number, edition, name, publisher, ...table.aliases, table.topic, table.notes, table.key].join(' '),
      ),
      rows: rowsOf(table).map((row) => ({
        words: fold(
          Object.entries(row)
            .map(([key, value]) => `${key.replaceAll('_', ' ')} ${String(value)}`)
            .join(' '),
        ),
        thread: rowThread(table, row),
        size: typeof row['size'] === 'string' ? row['size'] : null,
      })),
    };
  });
  return index;
}

/**
 * Tables and rows that hold every word of a query, in the row or in what is said of its table; a thread is found as whatever its
 * table prints it: "1/4-28" finds 0.250-28.
 */
export function searchHandbook(query: string): FoundTable[] {
  const words = fold(query)
    .split(/\s+/)
    .filter((word) => word !== '');
  if (words.length === 0) return allTables.map((table) => ({ table, rows: [] }));
  const thread = threadIn(query.trim());
  return indexed().flatMap(({ table, words: ofTable, rows }) => {
    const found = rows.flatMap((row, at) => {
      if (thread !== null && isOf(row, thread)) return [at];
      const inRow = words.some((word) => row.words.includes(word));
      return inRow && words.every((word) => row.words.includes(word) || ofTable.includes(word)) ? [at] : [];
    });
    if (found.length > 0) return [{ table, rows: found }];
    return words.every((word) => ofTable.includes(word)) ? [{ table, rows: [] }] : [];
  });
}

function isOf(row: Indexed['rows'][number], thread: Thread): boolean {
  if (row.thread !== null)
    return row.thread.system === thread.system && isPrintedThread(row.thread.designation, thread);
  if (row.size === null) return false;
  try {
    return isPrintedSize(row.size.replace(/^#/, ''), thread) && !row.size.startsWith('#');
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    return false;
  }
}
