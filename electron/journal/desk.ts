/** The journal and the right to write it, as both hosts hand them to the page. */
import { dirname, join } from 'node:path';
import type { JournalHost } from '../../shared-types/host.ts';
import type { JournalState } from '../../shared-types/journal.ts';
import { snapshotKeeper, type SnapshotKeeper } from './snapshots/keeper.ts';
import { keepBeforeNewVersion } from './snapshots/newVersion.ts';
import { regularly, type Regularly } from './snapshots/regularly.ts';
import { realDisk } from '../files/disk.ts';
import { deviceId } from './pointer.ts';
import { journalIn, type JournalOptions } from './journal.ts';
import { leaseDesk, type LeaseDesk } from './lease.ts';

export interface JournalDesk extends Omit<JournalHost, 'lease'> {
  lease: LeaseDesk;
  snapshots: SnapshotKeeper;
  /**
   * Opens in advance, so that the page's first question finds the work done.
   *
   * @param program - its version: where another one was here last, what is kept is kept as a snapshot too
   */
  begin(program?: string): void;
  /** Makes a last snapshot where something was written since, and closes. */
  leave(): Promise<void>;
  /** Lets go of the folder at once; what is still asked is refused. */
  close(): void;
}

/** What was found in advance is good for a page that comes at once, not for one that comes next day. */
const freshMs = 15_000;

export function journalDesk(options: JournalOptions): JournalDesk {
  const journal = journalIn(options);
  const lease = leaseDesk();
  const { disk, clock } = options;
  const folder = join(dirname(options.folder), 'snapshots');
  const say = (words: string): void => void process.stderr.write(`${words}\n`);
  const snapshots = snapshotKeeper({
    folder,
    journal: () => journal.standing(),
    ...(disk === undefined ? {} : { disk }),
    ...(clock === undefined ? {} : { clock }),
  });
  let regular: Regularly | null = null;
  let closed = false;
  const furtherThan = async (seq: number): Promise<JournalState['further']> => {
    const hashAt = async (at: number): Promise<string | null> =>
      (await journal.read({ from: at })).entries[0]?.hash ?? null;
    const id = await deviceId(options.folder, disk ?? realDisk);
    return await snapshots.furtherAtOpening({ seq, deviceId: id, hashAt });
  };
  const openNow = async (): Promise<JournalState> => {
    const state = await journal.open();
    // A folder of snapshots that cannot be read keeps nobody from the journal.
    return { ...state, further: await furtherThan(state.seq).catch(() => null) };
  };
  let begun: { state: Promise<JournalState>; atMs: number } | null = null;
  return {
    lease,
    snapshots,
    begin(program) {
      regular ??= regularly(snapshots, say);
      const state = openNow();
      // Whoever asks is told; until then nobody has asked.
      state.catch(() => undefined);
      if (program !== undefined)
        state
          .then(({ seq, damage }) =>
            damage === null
              ? keepBeforeNewVersion({
                  ...{ folder, keeper: snapshots, program, seq },
                  ...(disk === undefined ? {} : { disk }),
                })
              : undefined,
          )
          .catch((cause: unknown) => {
            if (!closed) say(`No snapshot was made: ${cause instanceof Error ? cause.message : String(cause)}`);
          });
      begun = { state, atMs: performance.now() };
    },
    open() {
      const waiting = begun;
      begun = null;
      return waiting !== null && performance.now() - waiting.atMs < freshMs ? waiting.state : openNow();
    },
    append: (request) => journal.append(request, () => lease.isHeld(request.lease)),
    read: (request) => journal.read(request),
    setDatabase: (request) => journal.setDatabase(request, () => lease.isHeld(request.lease)),
    beginAgain: (request) => journal.beginAgain(request, () => lease.isHeld(request.lease)),
    async leave() {
      closed = true;
      await regular?.leave();
      journal.close();
    },
    close() {
      closed = true;
      regular?.stop();
      journal.close();
    },
  };
}
