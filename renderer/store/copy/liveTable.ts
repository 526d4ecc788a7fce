/** A table as the screens see it: read once, in pieces, then kept current from what is committed. */
import { breathe } from '../breathe.ts';
import { createTopic } from '../topic.ts';
import type { LiveTable, TableState } from '../store.ts';
import { whyNotSaved } from '../writing/whyNotSaved.ts';

/** How a table is read. Null rows are gone. */
export interface TableSource<R> {
  /** The next records in order of their keys. */
  page(after: string | null, limit: number): Promise<R[]>;
  some(ids: readonly string[]): Promise<Map<string, R | null>>;
}

export interface KeptTable<R> extends LiveTable<R> {
  /** From now on this is where it reads; what was read elsewhere is read again. */
  attach(source: TableSource<R>): void;
  /** Newer than anything read so far. */
  take(changes: ReadonlyMap<string, R | null>): void;
  /** Another window says that these have changed: they are read, it is not believed. */
  readAgain(ids: readonly string[]): void;
  reload(): void;
  /** It cannot be read any more; what is shown stays. */
  fail(fault: string): void;
}

/** So many records are unpacked in well under the 50 ms that a hand feels. */
const pageSize = 1000;

export function createLiveTable<R extends { id: string }>(): KeptTable<R> {
  const topic = createTopic<TableState<R>>({ ready: false, rows: new Map(), fault: null });
  let source: TableSource<R> | null = null;
  let wanted = false;
  /** Each reading of the whole table; an older one that is still under way comes to nothing. */
  let reading = 0;
  /** What came while the table was being read: newer than the pieces. */
  let meanwhile: Map<string, R | null> | null = null;
  const lookers = new Set<(rows: readonly R[]) => void>();
  /** For each reading of some records under way: what has come since, and is newer. */
  const overtaken = new Set<Set<string>>();

  const publish = (rows: Map<string, R>): void => topic.set({ ready: true, rows, fault: null });

  const load = async (): Promise<void> => {
    if (source === null || !wanted) return;
    const from = source;
    reading += 1;
    const mine = reading;
    const came = new Map<string, R | null>();
    meanwhile = came;
    try {
      const rows = new Map<string, R>();
      let coming: Promise<R[]> = from.page(null, pageSize);
      for (;;) {
        const page: R[] = await coming;
        if (mine !== reading) return;
        const last = page.at(-1);
        const isLast = page.length < pageSize || last === undefined;
        // The database reads the next piece while the page is at this one.
        if (!isLast) coming = ahead(from.page(last.id, pageSize));
        for (const row of page) rows.set(row.id, row);
        for (const look of lookers) look(page);
        if (isLast) break;
        await breathe();
      }
      if (mine !== reading) return;
      meanwhile = null;
      merge(rows, came);
      publish(rows);
    } catch (error) {
      if (mine !== reading) return;
      meanwhile = null;
      topic.set({ ...topic.get(), fault: whyNotSaved(error) });
    }
  };

  const take = (changes: ReadonlyMap<string, R | null>): void => {
    if (changes.size === 0) return;
    if (meanwhile !== null) merge(meanwhile, changes, true);
    for (const newer of overtaken) for (const id of changes.keys()) newer.add(id);
    const { ready, rows } = topic.get();
    if (!ready) return;
    const next = new Map(rows);
    merge(next, changes);
    publish(next);
  };

  return {
    state: topic.get,
    subscribe(listener) {
      const leave = topic.subscribe(listener);
      if (!wanted) {
        wanted = true;
        void load();
      }
      return leave;
    },
    whileRead(look) {
      lookers.add(look);
      return () => lookers.delete(look);
    },
    attach(next) {
      source = next;
      void load();
    },
    take,
    readAgain(ids) {
      if (source === null || !wanted) return;
      const from = source;
      const newer = new Set<string>();
      overtaken.add(newer);
      from
        .some(ids)
        .then(
          (changes) => {
            overtaken.delete(newer);
            if (source === from) take(new Map([...changes].filter(([id]) => !newer.has(id))));
          },
          (error: unknown) => topic.set({ ...topic.get(), fault: whyNotSaved(error) }),
        )
        .finally(() => overtaken.delete(newer));
    },
    reload: () => void load(),
    fail(fault) {
      source = null;
      reading += 1;
      meanwhile = null;
      if (wanted) topic.set({ ...topic.get(), fault });
    },
  };
}

/** Its failing is told where it is waited for, if it still is. */
function ahead<T>(promise: Promise<T>): Promise<T> {
  promise.catch(() => undefined);
  return promise;
}

function merge<R>(into: Map<string, R>, changes: ReadonlyMap<string, R | null>): void;
function merge<R>(into: Map<string, R | null>, changes: ReadonlyMap<string, R | null>, keepGone: true): void;
function merge<R>(into: Map<string, R | null>, changes: ReadonlyMap<string, R | null>, keepGone = false): void {
  for (const [id, row] of changes) {
    if (row === null && !keepGone) into.delete(id);
    else into.set(id, row);
  }
}
