/** Brings a working copy that is behind, and otherwise whole, up to the journal. */
import type { JournalHost } from '../../../shared-types/host.ts';
import type { JournalEntry, JournalState } from '../../../shared-types/journal.ts';
import { applyEntries } from '../copy/applyEntries.ts';
import { compareCounts } from './compareCopy.ts';
import type { Verdict } from './compareCopy.ts';
import { toApply, weightMs } from '../writing/desk.ts';
import { entriesFrom } from '../writing/hostCalls.ts';
import { within } from '../noAnswer.ts';
import type { CopyTally, MetaRow, WorkingCopy } from '../copy/workingCopy.ts';

export interface ReplayAround {
  journal: JournalHost;
  copy: WorkingCopy;
  limitMs: () => number;
}

/**
 * Whether the journal goes on from where a copy stands: the entries must follow upon the copy's head, and taking them back from the
 * journal's counts must leave what the copy holds. Nothing is written.
 *
 * @returns `same` where it does; else why it does not
 */
export async function followsUpon(
  { journal, limitMs }: Pick<ReplayAround, 'journal' | 'limitMs'>,
  { seq, counts }: JournalState,
  found: CopyTally & { meta: MetaRow },
): Promise<Verdict> {
  const before = { ...counts };
  let first: JournalEntry | undefined;
  for await (const entries of entriesFrom(journal, found.meta.seq + 1, limitMs)) {
    first ??= entries[0];
    for (const { payload } of entries.filter((entry) => entry.seq <= seq)) {
      for (const { table, before: was, after } of payload.changes)
        before[table] -= (after === null ? 0 : 1) - (was === null ? 0 : 1);
    }
  }
  if (first?.seq !== found.meta.seq + 1 || first.prevHash !== found.meta.hash)
    return {
      kind: 'differs',
      reason: `Entry ${found.meta.seq} of the journal is not the one that the working copy was made from.`,
    };
  return compareCounts(before, found.counts);
}

/**
 * Looks before it writes. Doing it twice is the same as doing it once.
 *
 * @returns `same` once it is done; else why it is not, and nothing was written
 */
export async function replay(
  around: ReplayAround,
  state: JournalState,
  found: CopyTally & { meta: MetaRow },
): Promise<Verdict> {
  const { journal, copy, limitMs } = around;
  const follows = await followsUpon(around, state, found);
  if (follows.kind !== 'same') return follows;
  for await (const entries of entriesFrom(journal, found.meta.seq + 1, limitMs))
    await within(applyEntries(copy, entries.map(toApply)), limitMs() + weightMs(entries), 'the working copy');
  return { kind: 'same' };
}
