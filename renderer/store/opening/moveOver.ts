/**
 * A working copy of an earlier version is never changed where it lies. A new one of this version is built beside it from the journal,
 * read back and held against it, and only then pointed at; so that at every moment one of the two is whole, and the pointer at it.
 */
import type { JournalState } from '../../../shared-types/journal.ts';
import { rawCopyTally } from '../copy/rawDatabase.ts';
import { knownVersion } from '../copy/workingCopy.ts';
import type { CopyTally, MetaRow } from '../copy/workingCopy.ts';
import { NoAnswerError, within } from '../noAnswer.ts';
import { rebuild } from '../recovery/rebuild.ts';
import type { Hindrance } from '../store.ts';
import { ask, HostError } from '../writing/hostCalls.ts';
import { askPatiently } from '../writing/rightToWrite.ts';
import { whyNotSaved } from '../writing/whyNotSaved.ts';
import { compareCopy, looks } from './compareCopy.ts';
import type { OpeningAround } from './openingAround.ts';
import { followsUpon } from './replay.ts';

export type Moved =
  /** `state` names the database to open: the new one, or that of another window which was at it first. */
  { kind: 'moved'; state: JournalState } | { kind: 'hindered'; hindrance: Hindrance };

interface Old {
  name: string;
  version: number;
}

/** What the old copy holds is held against the journal before anything is built of that. */
export async function moveOver(around: OpeningAround, old: Old, state: JournalState): Promise<Moved> {
  const { journal, limitMs, callMs, takeLease, makeCopy, doing, moved } = around;
  const agreed = await agreement(around, old, state);
  if (agreed.kind === 'hindered' || agreed.state.database !== old.name) return agreed;
  const lease = await askPatiently(takeLease);
  try {
    // Whoever had the right to write before this window may have built one meanwhile.
    const now = await ask(() => journal.open(), limitMs(), 'the journal');
    if (now.database !== old.name) return { kind: 'moved', state: now };
    if (lease === null) return stays(old, 'another window of this program has the right to write: close it first');
    const name = await rebuild({
      ...{ journal, makeCopy, lease: lease.id, limitMs: () => callMs },
      progress: (done, of) => doing(`Bringing the working copy to version ${knownVersion}${shareText(done, of)}`),
    });
    moved(name);
  } catch (error) {
    if (error instanceof NoAnswerError || error instanceof HostError) throw error;
    return stays(old, whyNotSaved(error));
  } finally {
    lease?.end();
  }
  return { kind: 'moved', state: await ask(() => journal.open(), limitMs(), 'the journal') };
}

/** Other windows may write meanwhile: it looks again before it believes that the copy has come further. */
async function agreement({ journal, limitMs }: OpeningAround, { name }: Old, first: JournalState): Promise<Moved> {
  let state = first;
  for (let look = 1; ; look += 1) {
    const found = await within(rawCopyTally(name), limitMs(), 'the working copy (counting it)');
    let verdict = compareCopy(state, found);
    if (verdict.kind === 'behind')
      verdict = await followsUpon({ journal, limitMs }, state, found as CopyTally & { meta: MetaRow });
    if (verdict.kind === 'same' || verdict.kind === 'fresh') return { kind: 'moved', state };
    const tallies = {
      journal: { seq: state.seq, counts: state.counts },
      found: { seq: found.meta === null || found.meta === 'damaged' ? 0 : found.meta.seq, counts: found.counts },
    };
    if (verdict.kind === 'differs')
      return { kind: 'hindered', hindrance: { kind: 'copy-differs', reason: verdict.reason, ...tallies } };
    if (look >= looks) return { kind: 'hindered', hindrance: { kind: 'journal-missing', ...tallies } };
    state = await ask(() => journal.open(), limitMs(), 'the journal');
    if (state.database !== name) return { kind: 'moved', state };
  }
}

function stays({ version }: Old, reason: string): Moved {
  return { kind: 'hindered', hindrance: { kind: 'older-copy', kept: version, known: knownVersion, reason } };
}

function shareText(done: number, of: number): string {
  return of === 0 ? '' : `: ${Math.floor((100 * done) / of)} %`;
}
