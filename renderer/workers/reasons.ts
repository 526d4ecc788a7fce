import solverAddress from 'highs/runtime?url';
import type { ReasonFound } from '../../shared-types/bagReasons.ts';
import { RefusedError } from '../engine/errors.ts';
import type { LookedAt, ReasonsAsked, ReasonsMessage, ReasonsTask } from './reasonsMessages.ts';

export type { ReasonsAsked } from './reasonsMessages.ts';

export interface FindingReasons {
  /** All were found; false where the work was given up before. Refused where the worker fails. */
  done: Promise<boolean>;
  /** Ends the work at once; no more findings come. */
  cancel(): void;
  /** What happens without this line is found next. */
  lookAt(line: LookedAt): void;
}

/**
 * Finds the reasons of a bag that is shown already, in a worker of their own: each comes as soon as it is found, and
 * the window never waits.
 */
export function startFindingReasons(asked: ReasonsAsked, onFound: (reason: ReasonFound) => void): FindingReasons {
  const worker = new Worker(new URL('./reasonsWorker.ts', import.meta.url), { type: 'module' });
  let giveUp: () => void = () => undefined;
  let wanted = true;

  const done = new Promise<boolean>((resolve, reject) => {
    giveUp = () => resolve(false);
    worker.addEventListener('message', ({ data }: MessageEvent<ReasonsMessage>) => {
      // A message may be on its way while its worker is ended.
      if (!wanted) return;
      if (data.kind === 'found') onFound(data.reason);
      else if (data.kind === 'done') resolve(true);
      else reject(new RefusedError(data.refusal));
    });
    worker.addEventListener('error', (event) => reject(new Error(`the search for reasons stopped: ${event.message}`)));
  }).finally(() => worker.terminate());

  const task: ReasonsTask = { ...asked, solverAddress: new URL(solverAddress, document.baseURI).href };
  worker.postMessage(task);
  return {
    done,
    lookAt: (line) => {
      if (wanted) worker.postMessage(line);
    },
    cancel: () => {
      wanted = false;
      worker.terminate();
      giveUp();
    },
  };
}
