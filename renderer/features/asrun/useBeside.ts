import { useMemo } from 'react';
import type { AsRunBeside, KnownTool } from '../../../shared-types/inspection.ts';
import type { CalloutList, KeptCallout } from '../../../shared-types/records/judgedLists.ts';
import { knownTools } from '../../engine/inspection/index.ts';
import { rowsByList } from '../judged/listRows.ts';
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

/** What records are judged against. */
export function besideOf(
  callouts: CalloutList | null,
  rows: ReadonlyMap<string, KeptCallout>,
  tools: readonly KnownTool[],
): AsRunBeside {
  const own = callouts === null ? [] : (rowsByList(rows, new Set([callouts.id])).get(callouts.id) ?? []);
  return { callouts: { columns: callouts?.columns ?? [], rows: own.map(({ cells }) => ({ cells })) }, tools };
}
