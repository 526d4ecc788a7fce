/** What the window may say of its writes. `saved` is said only once nothing is under way and nothing has failed. */
import { createTopic } from '../topic.ts';
import type { SaveState } from '../store.ts';

export interface SaveLine {
  state(): SaveState;
  subscribe(listener: () => void): () => void;
  begun(): void;
  /** `kept`: something has reached the disk in both forms. */
  ended(kept: boolean): void;
  /** What could not be saved, by the key of the deed; null: it is settled. */
  failed(key: string, reason: string | null): void;
  elsewhere(reason: string | null): void;
  /** The store itself can take nothing more until it is opened again. */
  stopped(reason: string | null): void;
}

export function createSaveLine(now: () => Date): SaveLine {
  const topic = createTopic<SaveState>({ kind: 'nothing' });
  const failures = new Map<string, string>();
  let running = 0;
  let savedAt: Date | null = null;
  let otherWindow: string | null = null;
  let stop: string | null = null;

  const say = (): void => {
    const [failure] = failures.values();
    const reason = stop ?? failure;
    if (reason !== undefined) topic.set({ kind: 'not-saved', reason });
    else if (running > 0) topic.set({ kind: 'saving' });
    else if (otherWindow !== null) topic.set({ kind: 'elsewhere', reason: otherWindow });
    else if (savedAt !== null) topic.set({ kind: 'saved', at: savedAt });
    else topic.set({ kind: 'nothing' });
  };

  return {
    state: topic.get,
    subscribe: topic.subscribe,
    begun() {
      running += 1;
      say();
    },
    ended(kept) {
      running -= 1;
      if (kept) savedAt = now();
      say();
    },
    failed(key, reason) {
      if (reason === null) failures.delete(key);
      else failures.set(key, reason);
      say();
    },
    elsewhere(reason) {
      otherWindow = reason;
      say();
    },
    stopped(reason) {
      stop = reason;
      say();
    },
  };
}
