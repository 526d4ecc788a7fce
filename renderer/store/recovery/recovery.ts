/** The two ways out of a copy and a journal that do not agree. Neither deletes anything. */
import type { JournalHost, SnapshotHost } from '../../../shared-types/host.ts';
import type { Lease } from '../../../shared-types/journal.ts';
import { RefusedError } from '../../engine/errors.ts';
import { adopt } from './adopt.ts';
import { NoAnswerError, within } from '../noAnswer.ts';
import { hindranceOf } from '../opening/opening.ts';
import { rebuild } from './rebuild.ts';
import { ElsewhereError, elsewhereReason } from '../writing/rightToWrite.ts';
import { NotSavedError } from '../store.ts';
import type { OpeningState, Store } from '../store.ts';
import type { Topic } from '../topic.ts';
import { whyNotSaved } from '../writing/whyNotSaved.ts';
import type { WorkingCopy } from '../copy/workingCopy.ts';

export interface RecoveryAround {
  journal: JournalHost;
  snapshots?: Pick<SnapshotHost, 'make' | 'meant'>;
  makeCopy: (name: string) => WorkingCopy;
  opening: Topic<OpeningState>;
  open: () => Promise<void>;
  /** Ends this window's own hold on the working copy and its right to write. */
  letGo: () => void;
  limitMs: () => number;
  takeLease: () => Promise<Lease | null>;
  /** The working copy that the last opening looked at. */
  copyFound: () => string | null;
  moved: (name: string) => void;
}

interface Work {
  lease: string;
  progress: (done: number, of: number) => void;
}

export function recovery(
  around: RecoveryAround,
): Pick<Store, 'rebuildFromJournal' | 'keepWorkingCopy' | 'goOnWithout'> {
  const { journal, snapshots, makeCopy, opening, open, letGo, limitMs, takeLease, copyFound, moved } = around;
  let running = false;

  /** What is there now is looked at anew: a way may have been gone half. */
  const sayNotDone = async (error: unknown): Promise<void> => {
    if (error instanceof NoAnswerError) {
      opening.set({ kind: 'hindered', hindrance: hindranceOf(error) });
      return;
    }
    await open();
    const now = opening.get();
    const failed = `It was not done: ${error instanceof Error ? error.message : String(error)}`;
    if (now.kind === 'hindered') opening.set({ ...now, failed });
  };

  /** Of a damaged journal none can be made. Nothing is deleted on either way, so that its lack keeps from none of them. */
  const snapshot = async (): Promise<void> => {
    if (snapshots === undefined) return;
    const made = snapshots.make({ why: 'before-recovery' });
    await within(made, limitMs(), 'the snapshots').catch(() => undefined);
  };

  const meant = async (through?: number): Promise<void> => {
    if (snapshots === undefined) return;
    const told = snapshots.meant({ what: 'snapshots-go-further', ...(through === undefined ? {} : { through }) });
    await within(told, limitMs(), 'the snapshots');
  };

  /** A new journal begins at its first entry: snapshots that go no further than the two that a person chose between are behind it all the same. */
  const hadComeTo = (): number => {
    const now = opening.get();
    if (now.kind !== 'hindered' || !('found' in now.hindrance)) return 0;
    const { journal: by, found } = now.hindrance;
    return Math.max(by.seq, found?.seq ?? 0);
  };

  const recover = async (work: (with_: Work) => Promise<string>): Promise<void> => {
    if (running) throw new NotSavedError('it is under way already');
    running = true;
    const progress = (done: number, of: number): void => opening.set({ kind: 'recovering', done, of });
    progress(0, 1);
    letGo();
    try {
      const lease = await takeLease();
      if (lease === null) throw new ElsewhereError(`${elsewhereReason} Close it first.`);
      try {
        await snapshot();
        moved(await work({ lease: lease.id, progress }));
      } finally {
        lease.end();
      }
    } catch (error) {
      await sayNotDone(error);
      if (error instanceof RefusedError || error instanceof NotSavedError) throw error;
      throw new NotSavedError(whyNotSaved(error), { cause: error });
    } finally {
      running = false;
    }
    await open();
  };

  const recoverWithCopy = (through: number): Promise<void> =>
    recover(async ({ lease, progress }) => {
      const name = copyFound();
      if (name === null) throw new NotSavedError('there is no working copy to keep');
      const kept = await adopt(name, { journal, lease, makeCopy, limitMs, progress });
      // Not noted, they are named once more.
      await meant(through).catch(() => undefined);
      return kept;
    });

  return {
    rebuildFromJournal: () =>
      recover(({ lease, progress }) => rebuild({ journal, lease, makeCopy, limitMs, progress })),
    keepWorkingCopy: () => recoverWithCopy(hadComeTo()),
    async goOnWithout() {
      await meant();
      await open();
    },
  };
}
