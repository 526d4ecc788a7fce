/** The last entry of the journal by its number and hash: noted elsewhere, as on paper, it shows whether the end was cut off. */
import type { JournalHost } from '../../../shared-types/host.ts';
import { emptyHash } from '../../../shared-types/journal.ts';
import type { JournalHead } from '../store.ts';
import { entriesFrom } from './hostCalls.ts';

/** Read from the last entry that this window knows of; later ones of other windows are found by it too. */
export async function journalHead(journal: JournalHost, known: number, limitMs: () => number): Promise<JournalHead> {
  let head: JournalHead = { seq: 0, hash: emptyHash };
  for await (const entries of entriesFrom(journal, Math.max(1, known), limitMs)) {
    const last = entries.at(-1);
    if (last !== undefined) head = { seq: last.seq, hash: last.hash };
  }
  return head;
}
