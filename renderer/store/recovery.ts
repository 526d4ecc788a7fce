/** The two ways out of a copy and a journal that do not agree. Neither deletes anything. */
import type { JournalHost } from '../../shared-types/host.ts';
import type { Lease } from '../../shared-types/journal.ts';
import { RefusedError } from '../engine/errors.ts';
import { adopt } from './adopt.ts';
import { NoAnswerError } from './noAnswer.ts';
import { hindranceOf } from './opening.ts';
import { rebuild } from './rebuild.ts';
import { ElsewhereError, elsewhereReason } from './rightToWrite.ts';
import { NotSavedError } from './store.ts';
import type { OpeningState, Store } from './store.ts';
import type { Topic } from './topic.ts';
import { whyNotSaved } from './whyNotSaved.ts';
import type { WorkingCopy } from './workingCopy.ts';

export interface RecoveryAround {
  journal: JournalHost;
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

export function recovery(around: RecoveryAround): Pick<Store, 'rebuildFromJournal' | 'keepWorkingCopy'> {
  const { journal, makeCopy, opening, open, letGo, limitMs, takeLease, copyFound, moved } = around;
  let running = false;

  const recover = async (work: (with_: Work) => Promise<string>): Promise<void> => {
    if (running) throw new NotSavedError('it is under way already');
    running = true;
    const before = opening.get();
    const progress = (done: number, of: number): void => opening.set({ kind: 'recovering', done, of });
    progress(0, 1);
    letGo();
    try {
      const lease = await takeLease();
      if (lease === null) throw new ElsewhereError(`${elsewhereReason} Close it first.`);
      try {
        moved(await work({ lease: lease.id, progress }));
      } finally {
        lease.end();
      }
    } catch (error) {
      const hindered = notDone(before, error);
      if (hindered === null) await open();
      else opening.set(hindered);
      if (error instanceof RefusedError || error instanceof NotSavedError) throw error;
      throw new NotSavedError(whyNotSaved(error), { cause: error });
    } finally {
      running = false;
    }
    await open();
  };

  return {
    rebuildFromJournal: () =>
      recover(({ lease, progress }) => rebuild({ journal, lease, makeCopy, limitMs, progress })),
    keepWorkingCopy: () =>
      recover(async ({ lease, progress }) => {
        const name = copyFound();
        if (name === null) throw new NotSavedError('there is no working copy to keep');
        await adopt(name, { journal, lease, makeCopy, limitMs, progress });
        return name;
      }),
  };
}

/** The page stays where it was, with the reason; or says that there was no answer. Null: it can be opened as before. */
function notDone(before: OpeningState, error: unknown): OpeningState | null {
  if (error instanceof NoAnswerError) return { kind: 'hindered', hindrance: hindranceOf(error) };
  if (before.kind !== 'hindered') return null;
  const reason = error instanceof Error ? error.message : String(error);
  return { kind: 'hindered', hindrance: before.hindrance, failed: `It was not done: ${reason}` };
}
