import type { BagResult, BagWishes, Minimised, Tolerance } from '../../../shared-types/bag.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import type { SearchMoment } from '../../../shared-types/records/window.ts';
import { courseMost } from '../../../shared-types/records/window.ts';
import { standingOf } from '../../engine/bagMap/standing.ts';
import { refusalOf } from '../../store/session.ts';
import type { Session } from '../../store/session.ts';
import { toleranceWords } from './asked.ts';
import type { Asked } from './asked.ts';
import { ended, withMoment } from './course.ts';

export interface Progress {
  outing: string;
  best: number | null;
  bound: number | null;
  elapsedS: number;
}

/** The worker's promise: answers come by message, and it can be called off. */
export type StartPlanning = (
  text: string,
  options: { minimise: Minimised; tolerance: Tolerance; wishes: BagWishes; timeLimitS?: number },
) => { result: Promise<BagResult>; onProgress(listener: (progress: Progress) => void): void; cancel(): void };

export type PlanningState =
  | { kind: 'idle'; refusal: Refusal | null; cancelled: boolean }
  | { kind: 'running'; asked: Asked; progress: Progress | null; course: readonly SearchMoment[]; since: Date };

export interface Planning {
  state(): PlanningState;
  subscribe(listener: () => void): () => void;
  start(asked: Asked): void;
  cancel(): void;
}

/** News may come faster than anyone reads; the window is drawn anew no oftener than this. */
const betweenNewsMs = 100;

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
      const { minimised, tolerance, wishes, timeLimitS } = asked;
      const { plan } = atHand;
      const job = startPlanning(atHand.text, {
        ...{ minimise: minimised, tolerance, wishes },
        ...(timeLimitS === null ? {} : { timeLimitS }),
      });
      const run = { cancel: () => job.cancel(), planHash: atHand.planHash };
      running = run;
      const since = now();
      let course: readonly SearchMoment[] = [];
      let waiting = false;
      let last: Progress | null = null;
      const tell = (): void => {
        if (running === run) set({ kind: 'running', asked, progress: last, course, since });
      };
      tell();
      job.onProgress((progress) => {
        if (running !== run) return;
        const { outing, best, bound, elapsedS } = progress;
        course = withMoment(course, { outing, best, bound, atS: elapsedS });
        last = progress;
        if (waiting) return;
        waiting = true;
        tell();
        setTimeout(() => {
          waiting = false;
          tell();
        }, betweenNewsMs);
      });
      job.result.then(
        (result) => {
          if (running !== run) return;
          running = null;
          const refusal = answeredOtherwise(result, tolerance);
          set({ kind: 'idle', refusal, cancelled: false });
          if (refusal !== null) return;
          const atS = (now().getTime() - since.getTime()) / 1000;
          session.keepResult(run.planHash, {
            ...{ minimised, tolerance, wishes, timeLimitS, result },
            plannedAt: now().toISOString(),
            course: ended(course, plan, { result, minimised, atS }).slice(-courseMost),
          });
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

/** An answer is never shown for more than it was made for. */
function answeredOtherwise(result: BagResult, asked: Tolerance): Refusal | null {
  const { tolerance } = standingOf(result);
  if (tolerance === asked) return null;
  const message = `The planner answered for “${toleranceWords[tolerance]}”, and was asked for “${toleranceWords[asked]}”.`;
  return { code: 'internal', message };
}
