/** The whole journal read again from its first entry: the host checks each line on its way out, here each follows the one before. */
import type { JournalHost } from '../../../shared-types/host.ts';
import { emptyHash } from '../../../shared-types/journal.ts';
import { breathe } from '../breathe.ts';
import type { JournalVerified } from '../store.ts';
import { entriesFrom, HostError } from './hostCalls.ts';

export async function verifyJournal(
  journal: JournalHost,
  known: number,
  limitMs: () => number,
): Promise<JournalVerified> {
  let head = { seq: 0, hash: emptyHash };
  const broken = (reason: string): JournalVerified => ({ head, fault: { seq: head.seq + 1, reason } });
  try {
    for await (const entries of entriesFrom(journal, 1, limitMs)) {
      for (const { seq, prevHash, hash } of entries) {
        if (seq !== head.seq + 1) return broken(`entry ${seq} follows entry ${head.seq}`);
        if (prevHash !== head.hash) return broken('it does not follow the entry before it');
        head = { seq, hash };
      }
      await breathe();
    }
  } catch (error) {
    if (error instanceof HostError && error.refusal.code === 'unreadable-file') return broken(error.message);
    throw error;
  }
  return head.seq < known ? broken(`it ends with entry ${head.seq}; entry ${known} was kept`) : { head, fault: null };
}
