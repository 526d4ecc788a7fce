import { calloutColumns } from '../../../shared-types/callout.ts';
import type { CalloutList, KeptCallout } from '../../../shared-types/records/judgedLists.ts';
import { rowsMost } from '../../../shared-types/records/judgedLists.ts';
import { RefusedError } from '../../engine/errors.ts';
import { cellNamed, columnNamed } from '../../engine/inspection/index.ts';
import type { ReadyRow } from '../../engine/tableImport/index.ts';
import type { Act, Proposal } from '../../store/store.ts';
import type { Cells } from './calloutActs.ts';

/** A row's cells under the names that a table is mapped to, however its list spells them. */
export function cellsAsMapped(cells: Readonly<Cells>): Cells {
  const named = new Map(calloutColumns.map((name) => [columnNamed(Object.keys(cells), name), name as string]));
  return Object.fromEntries(Object.entries(cells).map(([column, text]) => [named.get(column) ?? column, text]));
}

/**
 * Rows of a table brought in, all in one act: new ones behind those that are there, changed ones in their places.
 *
 * @throws RefusedError too-large, where the list would hold more rows than are kept
 */
export function importAct(x: {
  list: CalloutList;
  isNewList: boolean;
  kept: readonly KeptCallout[];
  rows: readonly ReadyRow[];
  columns: readonly string[];
  newId: () => string;
}): Act {
  const { list, isNewList, kept, rows, newId } = x;
  const added = rows.filter(({ outcome }) => outcome === 'add').length;
  if (kept.length + added > rowsMost) {
    throw new RefusedError({
      code: 'too-large',
      message: `The list would hold ${kept.length + added} callouts; at most ${rowsMost} are kept. A longer file can be judged without being kept.`,
      value: kept.length + added,
    });
  }
  const columns = [...list.columns];
  for (const name of x.columns) if (columnNamed(columns, name) === undefined) columns.push(name);
  const own = (cells: Cells): Cells =>
    Object.fromEntries(Object.entries(cells).map(([name, text]) => [columnNamed(columns, name) ?? name, text]));
  const byId = new Map(kept.map((row) => [cellNamed(row.cells, 'id'), row]));
  let position = kept.at(-1)?.position ?? -1;
  const puts = rows.flatMap((row): Proposal[] => {
    if (row.outcome === 'same') return [];
    const before = byId.get(cellNamed(row.cells, 'id'));
    if (row.outcome === 'change' && before !== undefined)
      return [{ table: 'callouts', put: { ...before, cells: own(row.cells) } }];
    position += 1;
    return [{ table: 'callouts', put: { id: newId(), rev: 0, list: list.id, position, cells: own(row.cells) } }];
  });
  const lists: Proposal[] =
    isNewList || columns.length !== list.columns.length ? [{ table: 'calloutLists', put: { ...list, columns } }] : [];
  const title = `Import ${puts.length} ${puts.length === 1 ? 'callout' : 'callouts'} into “${list.name}”`;
  return { action: 'import-callouts', title: title.slice(0, 190), proposals: [...lists, ...puts] };
}
