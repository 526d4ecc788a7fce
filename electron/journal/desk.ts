/** The journal and the right to write it, as both hosts hand them to the page. */
import type { JournalHost } from '../../shared-types/host.ts';
import { HostRefusal } from '../site/refusal.ts';
import { leaseDesk, type LeaseDesk } from './lease.ts';

export interface JournalDesk extends Omit<JournalHost, 'lease'> {
  lease: LeaseDesk;
  /** Opens in advance, so that the page's first question finds the work done. */
  begin(): void;
  /** Lets go of the folder at once; what is still asked is refused. */
  close(): void;
}

export function journalDesk({ folder }: { folder: string }): JournalDesk {
  const absent = (): Promise<never> =>
    Promise.reject(new HostRefusal({ code: 'not-available', message: `The journal in ${folder} is not open.` }));
  return {
    lease: leaseDesk(),
    begin: () => undefined,
    open: absent,
    append: absent,
    read: absent,
    setDatabase: absent,
    beginAgain: absent,
    close: () => undefined,
  };
}
