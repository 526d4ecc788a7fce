/** What the window may say of its writes. `saved` is said only once every write asked for has reached the store. */
export type SaveState =
  | { kind: 'nothing' }
  | { kind: 'saving' }
  | { kind: 'saved'; at: Date }
  | { kind: 'not-saved'; reason: string }
  /** Another window writes; `heldBack` once this one had something to write. */
  | { kind: 'elsewhere'; heldBack: boolean };

interface Waiting {
  what: string;
  write: () => Promise<unknown>;
}

export interface Saver {
  state(): SaveState;
  subscribe(listener: () => void): () => void;
  /** Writes after all earlier writes; a later write of the same `what` takes the place of one still waiting. */
  save(what: string, write: () => Promise<unknown>): void;
  /** Something other than a write went wrong with the store; stands until the page is loaded again. */
  broken(reason: string): void;
  /** From now on nothing is written: another window does that, and two writers would undo each other unseen. */
  leaveToOther(): void;
  /** Tries every failed write again. */
  retry(): void;
  settled(): Promise<void>;
}

const quietLimitMs = 10_000;

export function whyNotSaved(error: unknown): string {
  const name = error instanceof Error || error instanceof DOMException ? error.name : '';
  const message = error instanceof Error || error instanceof DOMException ? error.message : String(error);
  if (name === 'QuotaExceededError') return 'the disk, or the share of it this window may use, is full';
  if (name === 'DatabaseClosedError') return 'the store was closed under this window';
  if (name === 'AbortError' || name === 'UnknownError')
    return `the store gave the write up (${name}); the disk may be full`;
  return name === '' ? message : `${message} (${name})`;
}

/** One queue of writes with an honest state. A failed write stays failed until the same thing is written again. */
export function createSaver(now: () => Date, limitMs = quietLimitMs): Saver {
  const listeners = new Set<() => void>();
  const waiting: Waiting[] = [];
  const failed = new Map<string, { write: Waiting['write']; reason: string }>();
  let running = false;
  let quietTooLong = false;
  let brokenReason: string | null = null;
  let elsewhere = false;
  let heldBack = false;
  let lastSaved: Date | null = null;
  let state: SaveState = { kind: 'nothing' };
  let idle: (() => void)[] = [];

  const say = (): void => {
    const [firstFailure] = failed.values();
    if (brokenReason !== null) state = { kind: 'not-saved', reason: brokenReason };
    else if (elsewhere) state = { kind: 'elsewhere', heldBack };
    else if (firstFailure !== undefined) state = { kind: 'not-saved', reason: firstFailure.reason };
    else if (quietTooLong) state = { kind: 'not-saved', reason: `the store has not answered for ${limitMs / 1000} s` };
    else if (running || waiting.length > 0) state = { kind: 'saving' };
    else if (lastSaved !== null) state = { kind: 'saved', at: lastSaved };
    else state = { kind: 'nothing' };
    for (const listener of listeners) listener();
  };

  const work = async (): Promise<void> => {
    running = true;
    for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) {
      const { what, write } = next;
      say();
      const alarm = setTimeout(() => {
        quietTooLong = true;
        say();
      }, limitMs);
      try {
        await write();
        failed.delete(what);
        lastSaved = now();
      } catch (error) {
        failed.set(what, { write, reason: whyNotSaved(error) });
      } finally {
        clearTimeout(alarm);
        quietTooLong = false;
      }
    }
    running = false;
    say();
    const resolvers = idle;
    idle = [];
    for (const resolve of resolvers) resolve();
  };

  const save = (what: string, write: Waiting['write']): void => {
    if (elsewhere) {
      heldBack = true;
      say();
      return;
    }
    const earlier = waiting.findIndex((entry) => entry.what === what);
    if (earlier >= 0) waiting.splice(earlier, 1);
    waiting.push({ what, write });
    if (running) say();
    else void work();
  };

  return {
    state: () => state,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    save,
    broken(reason) {
      brokenReason = reason;
      say();
    },
    leaveToOther() {
      elsewhere = true;
      say();
    },
    retry() {
      for (const [what, { write }] of [...failed]) save(what, write);
    },
    settled: () => (running ? new Promise((resolve) => idle.push(resolve)) : Promise.resolve()),
  };
}
