import type { Refusal } from '../../shared-types/errors.ts';
import { RefusedError } from '../engine/errors.ts';
import { readPlan } from '../engine/plan/readPlan.ts';
import type { ResolvedPlan } from '../engine/plan/resolved.ts';
import type { KeptResult, WindowDb } from './db.ts';
import { firstPreferences, readPreferences } from './preferences.ts';
import type { Preferences } from './preferences.ts';
import { whyNotSaved } from './saver.ts';
import type { Saver } from './saver.ts';

/** The plan under the hand. `plan` is read from `text`; nothing of it is edited here. */
export interface PlanAtHand {
  name: string;
  text: string;
  openedAt: string;
  plan: ResolvedPlan;
}

export interface SessionState {
  /** False until the store has answered, or has been given up. */
  ready: boolean;
  preferences: Preferences;
  atHand: PlanAtHand | null;
  result: KeptResult | null;
  /** A file that was not taken, and why; what was open before stays open. */
  refused: { name: string; refusal: Refusal; times: number } | null;
}

export interface Session {
  state(): SessionState;
  subscribe(listener: () => void): () => void;
  load(): Promise<void>;
  /** True where the text was a plan; else `refused` says why and nothing else changes. */
  openPlan(name: string, text: string): boolean;
  refuse(name: string, refusal: Refusal): void;
  dismissRefusal(): void;
  closePlan(): void;
  keepResult(planOpenedAt: string, kept: KeptResult): void;
  prefer(change: Partial<Preferences>): void;
}

interface Around {
  db: WindowDb;
  saver: Saver;
  now: () => Date;
  /** After this the window opens without what the store holds, and says so. */
  loadLimitMs?: number;
}

/** What any failure to take a file says, in the words of a refusal. */
export function refusalOf(error: unknown): Refusal {
  if (error instanceof RefusedError) return error.refusal;
  return { code: 'internal', message: error instanceof Error ? error.message : String(error) };
}

function within<T>(promise: Promise<T>, limitMs: number): Promise<T> {
  return new Promise((resolve, reject) => {
    const alarm = setTimeout(() => reject(new Error(`the store has not answered for ${limitMs / 1000} s`)), limitMs);
    promise.then(resolve, reject).finally(() => clearTimeout(alarm));
  });
}

export function createSession({ db, saver, now, loadLimitMs = 10_000 }: Around): Session {
  const listeners = new Set<() => void>();
  let state: SessionState = { ready: false, preferences: firstPreferences, atHand: null, result: null, refused: null };
  const set = (change: Partial<SessionState>): void => {
    state = { ...state, ...change };
    for (const listener of listeners) listener();
  };
  db.on('close', () => saver.broken('the store was closed under this window; save the result to a file'));

  const refuse = (name: string, refusal: Refusal): void =>
    set({ refused: { name, refusal, times: (state.refused?.times ?? 0) + 1 } });

  const load = async (): Promise<void> => {
    try {
      const [preferences, plan, result] = await within(
        Promise.all([db.preferences.get('preferences'), db.plan.get('plan'), db.result.get('result')]),
        loadLimitMs,
      );
      set({ preferences: readPreferences(preferences) });
      if (plan !== undefined) {
        const { name, text, openedAt } = plan;
        set({ atHand: { name, text, openedAt, plan: readPlan(text, name) } });
        if (result?.planOpenedAt === openedAt) {
          const { minimised, timeLimitS, plannedAt, result: answer } = result;
          set({ result: { minimised, timeLimitS, plannedAt, result: answer } });
        }
      }
    } catch (error) {
      if (error instanceof RefusedError) refuse(error.refusal.file ?? 'the plan kept here', error.refusal);
      else saver.broken(`what was kept could not be read: ${whyNotSaved(error)}`);
    }
    set({ ready: true });
  };

  return {
    state: () => state,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    load,
    openPlan(name, text) {
      let plan: ResolvedPlan;
      try {
        plan = readPlan(text, name);
      } catch (error) {
        refuse(name, refusalOf(error));
        return false;
      }
      const openedAt = now().toISOString();
      set({ atHand: { name, text, openedAt, plan }, result: null, refused: null });
      saver.save('the plan', () =>
        db.transaction('rw', db.plan, db.result, async () => {
          await db.plan.put({ key: 'plan', name, text, openedAt });
          await db.result.clear();
        }),
      );
      return true;
    },
    refuse,
    dismissRefusal: () => set({ refused: null }),
    closePlan() {
      set({ atHand: null, result: null });
      saver.save('the plan', () =>
        db.transaction('rw', db.plan, db.result, async () => {
          await db.plan.clear();
          await db.result.clear();
        }),
      );
    },
    keepResult(planOpenedAt, kept) {
      // The plan may have been changed for another while the answer was on its way.
      if (state.atHand?.openedAt !== planOpenedAt) return;
      set({ result: kept });
      saver.save('the result', () => db.result.put({ key: 'result', planOpenedAt, ...kept }));
    },
    prefer(change) {
      const preferences = { ...state.preferences, ...change };
      set({ preferences });
      saver.save('the preferences', () => db.preferences.put({ key: 'preferences', ...preferences }));
    },
  };
}
