import { useEffect, useRef } from 'react';
import type { KeptCallout } from '../../../shared-types/records/judgedLists.ts';
import { useTable } from '../session/useStore.ts';
import { keptDesk } from './desks.ts';
import { listsOfTask, rowsByList } from '../judged/listRows.ts';

/** Keeps every list of the task judged, wherever the person is; the job line and the findings live on it. Shows nothing. */
export function KeptJudging({ task }: { task: string }) {
  const lists = useTable('calloutLists');
  const callouts = useTable('callouts');
  const before = useRef(new Map<string, { columns: string; rows: readonly KeptCallout[] }>());
  const ready = lists.ready && callouts.ready;
  useEffect(() => {
    if (!ready) return;
    const desk = keptDesk();
    const own = listsOfTask(lists.rows, task);
    const rows = rowsByList(callouts.rows, new Set(own.map(({ id }) => id)));
    const judged = new Map<string, { columns: string; rows: readonly KeptCallout[] }>();
    for (const { id, columns } of own) {
      const now = { columns: columns.join('\n'), rows: rows.get(id) ?? [] };
      const then = before.current.get(id);
      judged.set(id, now);
      if (then !== undefined && then.columns === now.columns && isSame(then.rows, now.rows)) continue;
      desk.judgeKept(
        id,
        columns,
        now.rows.map(({ id: key, cells, accepted }) => ({
          key,
          cells,
          ...(accepted === undefined ? {} : { accepted }),
        })),
        null,
      );
    }
    for (const id of before.current.keys()) if (!judged.has(id)) desk.forget(id);
    before.current = judged;
  }, [ready, lists.rows, callouts.rows, task]);
  return null;
}

function isSame(one: readonly KeptCallout[], other: readonly KeptCallout[]): boolean {
  return one.length === other.length && one.every((row, at) => row === other[at]);
}
