import { useEffect, useRef } from 'react';
import type { KeptAsRun } from '../../../shared-types/records/judgedLists.ts';
import { listsOfTask, rowsByList } from '../judged/listRows.ts';
import { useKnownPlaces } from '../judged/useKnownPlaces.ts';
import { useTable } from '../session/useStore.ts';
import { keptRecordDesk } from './recordDesks.ts';
import { besideOf, calloutsFor, useKnownTools } from './useBeside.ts';

interface Judged {
  /** Columns, and what the rows are judged against. */
  said: string;
  rows: readonly KeptAsRun[];
}

/** Keeps every list of records of the task judged, wherever the person is. Shows nothing. */
export function KeptRecordJudging({ task }: { task: string }) {
  const lists = useTable('asRunLists');
  const records = useTable('asRuns');
  const calloutLists = useTable('calloutLists');
  const callouts = useTable('callouts');
  const tools = useKnownTools();
  const before = useRef(new Map<string, Judged>());
  const known = useKnownPlaces(task);
  const ready = [lists, records, calloutLists, callouts].every((table) => table.ready);
  useEffect(() => {
    if (!ready || known === null) return;
    const desk = keptRecordDesk();
    const own = listsOfTask(lists.rows, task);
    const rows = rowsByList(records.rows, new Set(own.map(({ id }) => id)));
    const ofTask = listsOfTask(calloutLists.rows, task);
    const judged = new Map<string, Judged>();
    for (const list of own) {
      const beside = besideOf(calloutsFor(list, ofTask), callouts.rows, { tools, known });
      const now: Judged = { said: JSON.stringify([list.columns, beside]), rows: rows.get(list.id) ?? [] };
      const then = before.current.get(list.id);
      judged.set(list.id, now);
      if (then !== undefined && then.said === now.said && isSame(then.rows, now.rows)) continue;
      const typed = now.rows.map(({ id: key, cells, accepted }) => ({
        key,
        cells,
        ...(accepted === undefined ? {} : { accepted }),
      }));
      desk.judgeKept(list.id, list.columns, typed, beside);
    }
    for (const id of before.current.keys()) if (!judged.has(id)) desk.forget(id);
    before.current = judged;
  }, [ready, lists.rows, records.rows, calloutLists.rows, callouts.rows, tools, known, task]);
  return null;
}

function isSame(one: readonly KeptAsRun[], other: readonly KeptAsRun[]): boolean {
  return one.length === other.length && one.every((row, at) => row === other[at]);
}
