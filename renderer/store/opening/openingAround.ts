import type { JournalHost } from '../../../shared-types/host.ts';
import type { Lease } from '../../../shared-types/journal.ts';
import type { WorkingCopy } from '../copy/workingCopy.ts';

export interface OpeningAround {
  journal: JournalHost;
  makeCopy: (name: string) => WorkingCopy;
  /** How long each call may take, so that the page is there in time. */
  limitMs: () => number;
  /** Opens although a snapshot goes further. */
  asItIs: boolean;
  doing: (what: string) => void;
  /** How long each call may take while a new working copy is built. */
  callMs: number;
  /** The right to write; null where another window has it. */
  takeLease: () => Promise<Lease | null>;
  /** Tells the other windows that the working copy is another one now. */
  moved: (name: string) => void;
}
