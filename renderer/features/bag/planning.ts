import type { BagResult, Minimised } from '../../../shared-types/bag.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import { refusalOf } from '../../store/session.ts';
import type { Session } from '../../store/session.ts';

export interface Progress {
  outing: string;
  best: number | null;
  bound: number | null;
  elapsedS: number;
}

/** The worker's promise: answers come by message, and it can be called off. */
export type StartPlanning = (
  text: string,
  options: { minimise: Minimised; timeLimitS?: number },
) => { result: Promise<BagResult>; onProgress(listener: (progress: Progress) => void): void; cancel(): void };

export interface Asked {
  minimised: Minimised;
  timeLimitS: number | null;
}

export type PlanningState =
  | { kind: 'idle'; refusal: Refusal | null; cancelled: boolean }
  | { kind: 'running'; asked: Asked; progress: Progress | null; since: Date };

export interface Planning {
  state(): PlanningState;
  subscribe(listener: () => void): () => void;
  start(asked: Asked): void;
  cancel(): void;
}

/** One run at a time, which goes on while other places of the window are looked at. */
export function createPlanning(session: Session, startPlanning: StartPlanning, now: () => Date): Planning {
  const listeners = new Set<() => void>();
  let state: PlanningState = { kind: 'idle', refusal: null, cancelled: false };
  let running: { cancel(): void; planHash: string } | null = null;
  const set = (next: PlanningState): void => {
    state = next;
    for (const listener of listeners) listener();
  };
  const cancel = (): void => {
    if (running === null) return;
    const run = running;
    running = null;
    run.cancel();
    set({ kind: 'idle', refusal: null, cancelled: true });
  };
  // An answer for a plan no longer at hand helps nobody.
  session.subscribe(() => {
    if (running !== null && session.state().atHand?.planHash !== running.planHash) cancel();
  });

  return {
    state: () => state,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    start(asked) {
      const { atHand } = session.state();
      // A bag planned without what cannot be read would look whole and be short.
      if (atHand === null || atHand.missing.length > 0 || running !== null) return;
      const { minimised, timeLimitS } = asked;
      const job = startPlanning(atHand.text, { minimise: minimised, ...(timeLimitS === null ? {} : { timeLimitS }) });
      const run = { cancel: () => job.cancel(), planHash: atHand.planHash };
      running = run;
      const since = now();
      set({ kind: 'running', asked, progress: null, since });
      job.onProgress((progress) => {
        if (running === run) set({ kind: 'running', asked, progress, since });
      });
      job.result.then(
        (result) => {
          if (running !== run) return;
          running = null;
          set({ kind: 'idle', refusal: null, cancelled: false });
          session.keepResult(run.planHash, { minimised, timeLimitS, plannedAt: now().toISOString(), result });
        },
        (error: unknown) => {
          if (running !== run) return;
          running = null;
          set({ kind: 'idle', refusal: refusalOf(error), cancelled: false });
        },
      );
    },
    cancel,
  };
}
