/** One window has the right to write; this is how a window comes by it and learns that it is gone. */
import type { JournalHost } from '../../../shared-types/host.ts';
import type { Lease } from '../../../shared-types/journal.ts';
import { ask } from './hostCalls.ts';
import { NotSavedError } from '../store.ts';

/** Thrown where another window has it: nothing is wrong with the change, it is to be saved there or taken over. */
export class ElsewhereError extends NotSavedError {}

export const elsewhereReason = 'Another window of this program has the right to write.';

/** A page being loaded again may ask before its earlier self has let go: it asks again, so often and so far apart. */
const patience = { attempts: 5, apartMs: 200 };

export async function askForLease(
  journal: JournalHost,
  takeOver: boolean,
  limitMs: number,
  onLost: (lease: Lease, reason: string) => void,
): Promise<Lease | null> {
  let lease: Lease | null = null;
  let lost: string | null = null;
  const ended = (reason: string): void => {
    lost = reason;
    if (lease !== null) onLost(lease, reason);
  };
  lease = await ask(() => journal.lease({ takeOver }, ended), limitMs, 'the journal');
  return lost === null ? lease : null;
}

export async function askPatiently(take: () => Promise<Lease | null>): Promise<Lease | null> {
  for (let attempt = 1; ; attempt += 1) {
    const lease = await take();
    if (lease !== null || attempt >= patience.attempts) return lease;
    await new Promise((resolve) => setTimeout(resolve, patience.apartMs));
  }
}
