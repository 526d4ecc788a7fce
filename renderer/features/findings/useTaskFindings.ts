import { useMemo } from 'react';
import { useTable } from '../session/useStore.ts';
import { besideCallouts } from './stepFindings.ts';
import { useFound } from './useFound.ts';
import type { Found } from './useFound.ts';
import { useStepsJudged } from './useStepsJudged.ts';

/** Everything judged of a task's lists; or that they are still being read, or cannot be. */
export function useTaskFindings(task: string): { found: Found | null; fault: string | null; ready: boolean } {
  const calloutLists = useTable('calloutLists');
  const asRunLists = useTable('asRunLists');
  const callouts = useTable('callouts');
  const records = useTable('asRuns');
  const steps = useStepsJudged(task);
  const asked = useMemo(() => {
    const own = [
      ...[...calloutLists.rows.values()].map((list) => ({ list, kind: 'callouts' as const })),
      ...[...asRunLists.rows.values()].map((list) => ({ list, kind: 'as-run' as const })),
    ].filter(({ list }) => list.task === task);
    const lists = own
      .toSorted((a, b) => (a.kind === b.kind ? (a.list.name < b.list.name ? -1 : 1) : a.kind === 'callouts' ? -1 : 1))
      .map(({ list, kind }) => ({ id: list.id, name: list.name, from: list.from?.file ?? null, kind }));
    const judged = { name: 'Steps of the task', from: null, kind: 'steps' as const };
    return steps.id === null ? lists : [...lists, { id: steps.id, ...judged }];
  }, [calloutLists.rows, asRunLists.rows, task, steps.id]);
  const all = useFound(asked);
  const found = useMemo(
    () => (all === null ? null : { ...all, lists: besideCallouts(all.lists, steps.known) }),
    [all, steps.known],
  );
  const tables = [calloutLists, asRunLists, callouts, records];
  return {
    found,
    fault: tables.find((table) => table.fault !== null)?.fault ?? null,
    ready: steps.ready && tables.every((table) => table.ready),
  };
}
