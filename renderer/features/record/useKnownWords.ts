import { useMemo } from 'react';
import { knownBefore, knownWords } from '../../engine/return/index.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { useTaskRecord } from './useTaskRecord.ts';

/** What earlier outings of a task say before one of them is packed, in sentences; null while it is read. The same words are the same list. */
export function useKnownWords(x: {
  task: string;
  /** Null where it cannot be read: then nothing is said. */
  plan: ResolvedPlan | null;
  outing: string | undefined;
  /** Key of the revision that is printed; null for the task as it stands. */
  revision: string | null;
}): readonly string[] | null {
  const { task, plan, outing, revision } = x;
  const { ready, revisions, events, discrepancies } = useTaskRecord(task);
  const key = useMemo(() => {
    if (!ready || plan === null || outing === undefined) return null;
    return JSON.stringify(knownWords(knownBefore({ plan, outing, revision, revisions, events, discrepancies }), plan));
  }, [ready, plan, outing, revision, revisions, events, discrepancies]);
  return useMemo(() => (key === null ? null : (JSON.parse(key) as string[])), [key]);
}
