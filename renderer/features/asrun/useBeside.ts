import { useMemo } from 'react';
import type { AsRunBeside, KnownTool } from '../../../shared-types/inspection.ts';
import type { CalloutList, KeptCallout } from '../../../shared-types/records/judgedLists.ts';
import { orderColumn, orderFromColumn } from '../../engine/asrun/index.ts';
import { cellNamed, columnNamed, knownTools } from '../../engine/inspection/index.ts';
import type { KnownPlaces } from '../judged/interfaceOf.ts';
import { rowsByList } from '../judged/listRows.ts';
import { orderOfCallout } from '../judged/orderOfCallout.ts';
import { useTable } from '../session/useStore.ts';

/** What is known of tools: of the catalog's, and what was found out, kept with the lists of every task. */
export function useKnownTools(): readonly KnownTool[] {
  const items = useTable('items');
  const lists = useTable('asRunLists');
  return useMemo(() => {
    const tools = [...items.rows.values()].flatMap((item) => (item.kind === 'torque-tool' ? [item] : []));
    return knownTools(
      tools,
      [...lists.rows.values()].flatMap(({ foundOut = [] }) => foundOut),
    );
  }, [items.rows, lists.rows]);
}

/** The list of callouts that records are judged against: the one said, else the task's first. */
export function calloutsFor(
  list: { callouts?: string | undefined } | null,
  lists: readonly CalloutList[],
): CalloutList | null {
  return lists.find(({ id }) => id === list?.callouts) ?? lists[0] ?? null;
}

/** What records are judged against. A callout without an order of its own has that of the interface it is for. */
export function besideOf(
  callouts: CalloutList | null,
  rows: ReadonlyMap<string, KeptCallout>,
  { tools, known }: { tools: readonly KnownTool[]; known: KnownPlaces },
): AsRunBeside {
  const own = callouts === null ? [] : (rowsByList(rows, new Set([callouts.id])).get(callouts.id) ?? []);
  const columns = callouts?.columns ?? [];
  const written = columnNamed(columns, orderColumn) ?? orderColumn;
  const filled = own.map(({ cells }) => {
    if (cellNamed(cells, orderColumn) !== '') return { cells };
    const order = orderOfCallout(cells, known);
    if (order === null) return { cells };
    return { cells: { ...cells, [written]: order.positions.join(', '), [orderFromColumn]: order.from } };
  });
  const isFilled = filled.some(({ cells }) => orderFromColumn in cells);
  const more = [written, orderFromColumn].filter((name) => !columns.includes(name));
  return { callouts: { columns: isFilled ? [...columns, ...more] : columns, rows: filled }, tools };
}
