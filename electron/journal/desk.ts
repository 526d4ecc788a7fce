/** The journal and the right to write it, as both hosts hand them to the page. */
import type { JournalHost } from '../../shared-types/host.ts';
import type { JournalState } from '../../shared-types/journal.ts';
import { journalIn, type JournalOptions } from './journal.ts';
import { leaseDesk, type LeaseDesk } from './lease.ts';

export interface JournalDesk extends Omit<JournalHost, 'lease'> {
  lease: LeaseDesk;
  /** Opens in advance, so that the page's first question finds the work done. */
  begin(): void;
  /** Lets go of the folder at once; what is still asked is refused. */
  close(): void;
}

/** What was found in advance is good for a page that comes at once, not for one that comes next day. */
const freshMs = 15_000;

export function journalDesk(options: JournalOptions): JournalDesk {
  const journal = journalIn(options);
  const lease = leaseDesk();
  let begun: { state: Promise<JournalState>; atMs: number } | null = null;
  return {
    lease,
    begin() {
      const state = journal.open();
      // Whoever asks is told; until then nobody has asked.
      state.catch(() => undefined);
      begun = { state, atMs: performance.now() };
    },
    open() {
      const waiting = begun;
      begun = null;
      return waiting !== null && performance.now() - waiting.atMs < freshMs ? waiting.state : journal.open();
    },
    append: (request) => journal.append(request, () => lease.isHeld(request.lease)),
    read: (request) => journal.read(request),
    setDatabase: (request) => journal.setDatabase(request, () => lease.isHeld(request.lease)),
    beginAgain: (request) => journal.beginAgain(request, () => lease.isHeld(request.lease)),
    close: () => journal.close(),
  };
}
