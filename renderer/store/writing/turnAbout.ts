import type { JournalHost } from '../../../shared-types/host.ts';
import type { EntryHead } from '../../../shared-types/journal.ts';
import { RefusedError } from '../../engine/errors.ts';
import { PartedError } from '../copy/applyEntries.ts';
import type { Deed } from './deeds.ts';
import { ask } from './hostCalls.ts';
import { turnedRound } from './wishes.ts';

/** The deed that turns an entry of the journal round. @throws RefusedError where there is none */
export async function turnAbout(
  journal: JournalHost,
  action: 'undo' | 'redo',
  head: EntryHead | null,
  limitMs: () => number,
): Promise<Deed> {
  if (head === null) {
    const message = action === 'undo' ? 'There is nothing to undo.' : 'There is nothing to do again.';
    throw new RefusedError({ code: 'not-available', message });
  }
  const { entries } = await ask(() => journal.read({ from: head.seq }), limitMs(), 'the journal');
  const entry = entries[0];
  if (entry?.seq !== head.seq || entry.payload.key !== head.key)
    throw new PartedError(`entry ${head.seq} of the journal is not the one that this window has`);
  const wishes = turnedRound(entry);
  return { key: crypto.randomUUID(), action, title: head.title, undoable: true, of: head.seq, wishes };
}
