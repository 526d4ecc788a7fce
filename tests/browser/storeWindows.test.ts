import { describe, expect, it } from 'vitest';
import { knownVersion, nativeVersion, WorkingCopy } from '../../renderer/store/copy/workingCopy.ts';
import { ConflictError, NotSavedError } from '../../renderer/store/store.ts';
import type { Store } from '../../renderer/store/store.ts';
import {
  digestsIn,
  fastener,
  hindranceIn,
  keptJournal,
  limitsToShorten,
  openWindowOn,
  put,
  rawDatabase,
  rowsOf,
  saveStates,
  shelf,
} from './support/keptStore.ts';

const addShelf = (id: string) => ({ action: 'add', title: `Add ${id}`, proposals: [put('shelves', shelf(id))] });

const nameOf = async (store: Store, id: string): Promise<string | undefined> =>
  (await rowsOf(store, 'shelves')).get(id)?.name;

describe('two windows', () => {
  it('never both write: the second is read-only and says so', async () => {
    const journal = await keptJournal(1);
    const first = await openWindowOn(journal);
    const second = await openWindowOn(journal);
    expect(second.store.saving()).toMatchObject({ kind: 'elsewhere' });
    await expect(second.store.commit(addShelf('two'))).rejects.toThrow(NotSavedError);
    expect(second.store.saving()).toMatchObject({ kind: 'elsewhere' });
    await first.store.commit(addShelf('one'));
    expect(journal.entries).toHaveLength(3);
    first.store.close();
    second.store.close();
  });

  it('change places when the second takes over, and the first learns of it', async () => {
    const journal = await keptJournal(1);
    const first = await openWindowOn(journal);
    const second = await openWindowOn(journal);
    await second.store.writeHere();
    expect(second.store.saving().kind).not.toBe('elsewhere');
    expect(first.store.saving()).toEqual({ kind: 'elsewhere', reason: 'Another window took over saving.' });
    await second.store.commit(addShelf('two'));
    await expect(first.store.commit(addShelf('one'))).rejects.toThrow(NotSavedError);
    await first.store.writeHere();
    await first.store.commit(addShelf('one'));
    expect([...(await rowsOf(first.store, 'shelves')).keys()].toSorted()).toEqual(['crew', 'one', 'two']);
    first.store.close();
    second.store.close();
  });

  it('leave the right to write to the other when one is closed', async () => {
    const journal = await keptJournal(1);
    const first = await openWindowOn(journal);
    const second = await openWindowOn(journal);
    await first.store.commit(addShelf('one'));
    first.store.close();
    await second.store.commit(addShelf('two'));
    expect(second.store.saving().kind).toBe('saved');
    second.store.close();
  });

  it('do not write once the lease has ended under them, and notice', async () => {
    const journal = await keptJournal(1);
    const first = await openWindowOn(journal);
    const second = await openWindowOn(journal);
    journal.endLease('the connection ended');
    expect(first.store.saving()).toEqual({ kind: 'elsewhere', reason: 'the connection ended' });
    await second.store.commit(addShelf('two'));
    await expect(first.store.commit(addShelf('one'))).rejects.toThrow(NotSavedError);
    expect(journal.entries.map(({ payload }) => payload.title).slice(2)).toEqual(['Add two']);
    first.store.close();
    second.store.close();
  });

  it('show each other’s changes, read from the database, with the history', async () => {
    const journal = await keptJournal(1);
    const first = await openWindowOn(journal);
    const second = await openWindowOn(journal);
    const before = await rowsOf(second.store, 'items');
    await rowsOf(second.store, 'shelves');
    await first.store.commit(addShelf('one'));
    await first.store.commit({
      ...addShelf('one'),
      title: 'Name it',
      proposals: [put('shelves', { ...shelf('one', 'First'), rev: 1 })],
    });
    await expect.poll(() => nameOf(second.store, 'one')).toBe('First');
    await expect.poll(() => second.store.history().undo?.title).toBe('Name it');
    await first.store.undo();
    await first.store.undo();
    await expect.poll(() => nameOf(second.store, 'one')).toBe(undefined);
    await expect.poll(() => second.store.history().redo?.title).toBe('Add one');
    // A table that nothing has touched is still the very same.
    expect(second.store.table('items').state().rows).toBe(before);
    first.store.close();
    second.store.close();
  });

  it('do not believe what another window says before the database bears it out', async () => {
    const journal = await keptJournal(1);
    const first = await openWindowOn(journal);
    const second = await openWindowOn(journal);
    const before = await rowsOf(second.store, 'shelves');
    const channel = new BroadcastChannel(journal.database().replace(/-1$/, ''));
    channel.postMessage({ seq: 3, keys: [['shelves', ['invented']]], rows: [shelf('invented')] });
    channel.postMessage({ seq: 3, keys: [['shelves', ['invented']]] });
    channel.postMessage('nonsense');
    // Time enough to hear it and look.
    await new Promise((resolve) => setTimeout(resolve, 500));
    expect(second.store.table('shelves').state().rows).toBe(before);
    await first.store.commit(addShelf('one'));
    await expect.poll(() => nameOf(second.store, 'one')).toBe('one');
    channel.close();
    first.store.close();
    second.store.close();
  });

  it('read a table again where they have missed something', async () => {
    const journal = await keptJournal(1);
    const first = await openWindowOn(journal);
    const second = await openWindowOn(journal);
    await rowsOf(second.store, 'shelves');
    const real = BroadcastChannel.prototype.postMessage;
    BroadcastChannel.prototype.postMessage = () => undefined;
    try {
      await first.store.commit(addShelf('one'));
    } finally {
      BroadcastChannel.prototype.postMessage = real;
    }
    await first.store.commit(addShelf('two'));
    await expect
      .poll(async () => [...(await rowsOf(second.store, 'shelves')).keys()].toSorted())
      .toEqual(['crew', 'one', 'two']);
    await expect
      .poll(() =>
        second.store
          .history()
          .recent.map(({ title }) => title)
          .slice(0, 2),
      )
      .toEqual(['Add two', 'Add one']);
    first.store.close();
    second.store.close();
  });
});

describe('the same record changed in two windows', () => {
  it('shows both versions in 100 of 100 tries, and overwrites none in silence', async () => {
    const journal = await keptJournal(0);
    journal.faults.anyoneWrites = true;
    const first = await openWindowOn(journal);
    const second = await openWindowOn(journal);
    let rev = 1;
    for (let round = 1; round <= 100; round += 1) {
      const mine = put('shelves', { ...shelf('crew', `first ${round}`), rev });
      const theirs = put('shelves', { ...shelf('crew', `second ${round}`), rev });
      const answers = await Promise.allSettled([
        first.store.commit({ action: 'edit', title: 'Edit', proposals: [mine] }),
        second.store.commit({ action: 'edit', title: 'Edit', proposals: [theirs] }),
      ]);
      const refused = answers.flatMap((answer) => (answer.status === 'rejected' ? [answer.reason as unknown] : []));
      expect(refused).toHaveLength(1);
      const [error] = refused;
      if (!(error instanceof ConflictError)) throw new Error(`no conflict: ${String(error)}`);
      rev += 1;
      const wonFirst = answers[0].status === 'fulfilled';
      expect(error.conflicts).toMatchObject([
        {
          ...{ table: 'shelves', id: 'crew' },
          mine: { name: wonFirst ? `second ${round}` : `first ${round}` },
          kept: { name: wonFirst ? `first ${round}` : `second ${round}`, rev },
        },
      ]);
    }
    expect(journal.entries).toHaveLength(101);
    first.store.close();
    second.store.close();
  });
});

describe('a window that an upgrade has overtaken', () => {
  it('stops writing, says Reload, and leaves no row', async () => {
    const journal = await keptJournal(1);
    const { store } = await openWindowOn(journal);
    const upgraded = await rawDatabase(journal.database(), nativeVersion(knownVersion + 1));
    expect(hindranceIn(store)).toEqual({ kind: 'reload' });
    expect(store.saving()).toMatchObject({ kind: 'not-saved' });
    await expect(store.commit(addShelf('late'))).rejects.toThrow(NotSavedError);
    expect(journal.entries).toHaveLength(2);
    const names = [...upgraded.objectStoreNames];
    expect(names).toContain('shelves');
    upgraded.close();
    store.close();
    expect((await rawRows(journal.database(), 'shelves')).map(({ id }) => id)).toEqual(['crew']);
  });

  it('has a database that does not open again by itself', async () => {
    const journal = await keptJournal(1);
    const copy = new WorkingCopy(journal.database());
    await copy.open();
    const upgraded = await rawDatabase(journal.database(), nativeVersion(knownVersion + 1));
    await expect(copy.table('shelves').put(shelf('late'))).rejects.toThrow(/closed/i);
    await expect(copy.open()).rejects.toThrow(/closed/i);
    upgraded.close();
    expect((await rawRows(journal.database(), 'shelves')).map(({ id }) => id)).toEqual(['crew']);
  });
});

describe('a connection that ends unasked', () => {
  it('stops all writing at once and says so', async () => {
    const journal = await keptJournal(1);
    const { store, copy } = await openWindowOn(journal);
    const states = saveStates(store);
    copy().backendDB().dispatchEvent(new Event('close'));
    expect(store.saving()).toMatchObject({
      kind: 'not-saved',
      reason: expect.stringMatching(/closed under this window/),
    });
    expect(hindranceIn(store)).toMatchObject({
      kind: 'copy-lost',
      reason: expect.stringMatching(/closed under this window/),
    });
    const idle = performance.now();
    await new Promise((resolve) => setTimeout(resolve, 0));
    const lateMs = performance.now() - idle;
    const start = performance.now();
    await expect(store.commit(addShelf('late'))).rejects.toThrow(NotSavedError);
    // A tenth of a second, and what a timer is late here and now: nothing is asked of the database any more.
    expect(performance.now() - start).toBeLessThan(100 + 20 * lateMs);
    expect(journal.entries).toHaveLength(2);
    expect(states.every(({ kind }) => kind !== 'saved')).toBe(true);
    await store.open();
    expect(store.opening().kind).toBe('ready');
    await store.commit(addShelf('later'));
    expect(store.saving().kind).toBe('saved');
    store.close();
  });

  it('is looked into by itself, once: both are compared, and the work goes on where they agree', async () => {
    const journal = await keptJournal(1);
    const { store, copy } = await openWindowOn(journal);
    copy().backendDB().dispatchEvent(new Event('close'));
    expect(hindranceIn(store)).toMatchObject({ kind: 'copy-lost' });
    await expect
      .poll(() => store.opening())
      .toMatchObject({
        kind: 'ready',
        notice: expect.stringMatching(/^The working copy was opened again by itself.*closed under this window\.$/),
      });
    await store.commit(addShelf('later'));
    expect(store.saving().kind).toBe('saved');
    // Again so soon it would be again and again: that is left to a person.
    copy().backendDB().dispatchEvent(new Event('close'));
    await new Promise((resolve) => setTimeout(resolve, 1_500));
    expect(hindranceIn(store)).toMatchObject({ kind: 'copy-lost' });
    await store.open();
    expect(store.opening()).toMatchObject({ kind: 'ready', notice: null });
    expect((await store.readAll()).get('shelves')?.has('later')).toBe(true);
    store.close();
  });

  it('shows what the journal holds by then where the working copy does not open again', async () => {
    const journal = await keptJournal(1);
    let isThere = true;
    const copies: WorkingCopy[] = [];
    const { store } = await openWindowOn(journal, {
      makeCopy: (name) => {
        const made = new WorkingCopy(name);
        if (!isThere) made.open = () => Promise.reject(new DOMException('no', 'UnknownError')) as never;
        copies.push(made);
        return made;
      },
    });
    await store.commit(addShelf('more'));
    isThere = false;
    copies[0]?.backendDB().dispatchEvent(new Event('close'));
    await expect
      .poll(() => store.opening())
      .toMatchObject({
        hindrance: {
          ...{ kind: 'copy-differs', found: null, journal: { seq: 3, counts: { shelves: 2, items: 1 } } },
          reason:
            'The working copy cannot be read or written; the disk may be full, or the working copy is damaged (UnknownError).',
        },
      });
    store.close();
  });

  it('stops a change between journal and database, which the next opening brings over', async () => {
    const journal = await keptJournal(1);
    const host = journal.window();
    const { store, copy } = await openWindowOn(journal, {
      journal: {
        ...host,
        append: async (request) => {
          const appended = await host.append(request);
          copy().backendDB().dispatchEvent(new Event('close'));
          return appended;
        },
      },
    });
    await expect(store.commit(addShelf('cut'))).rejects.toThrow(NotSavedError);
    expect(journal.entries).toHaveLength(3);
    expect(store.saving().kind).toBe('not-saved');
    expect((await digestsIn(journal.database())).shelves.count).toBe(1);
    await store.open();
    expect((await rowsOf(store, 'shelves')).has('cut')).toBe(true);
    store.close();
  });

  it('is not mended by Dexie behind the store’s back', async () => {
    const journal = await keptJournal(1);
    const { limits, shorten } = limitsToShorten();
    const { store, copy } = await openWindowOn(journal, { limits });
    shorten();
    // The browser has closed it and has not said so yet.
    copy().backendDB().close();
    await expect(store.commit(addShelf('late'))).rejects.toThrow(NotSavedError);
    expect(store.saving().kind).toBe('not-saved');
    expect(copy().isOpen()).toBe(false);
    expect((await digestsIn(journal.database())).shelves.count).toBe(1);
    store.close();
  });
});

describe('the working copy', () => {
  it('asks the browser to flush each write to the disk', async () => {
    const journal = await keptJournal(0);
    const asked: unknown[] = [];
    const real = IDBDatabase.prototype.transaction;
    IDBDatabase.prototype.transaction = function (this: IDBDatabase, names, mode, more) {
      const transaction = real.call(this, names, mode, more);
      if (mode === 'readwrite') asked.push(transaction.durability);
      return transaction;
    };
    try {
      const { store } = await openWindowOn(journal);
      await store.commit({ action: 'add', title: 'Add', proposals: [put('items', fastener('F-1', 'crew'))] });
      store.close();
    } finally {
      IDBDatabase.prototype.transaction = real;
    }
    expect(asked.length).toBeGreaterThan(0);
    expect(new Set(asked)).toEqual(new Set(['strict']));
  });
});

async function rawRows(name: string, table: string): Promise<{ id: string }[]> {
  const database = await rawDatabase(name);
  const rows = await new Promise<{ id: string }[]>((resolve, reject) => {
    const request = database.transaction(table).objectStore(table).getAll();
    request.addEventListener('success', () => resolve(request.result));
    request.addEventListener('error', () => reject(request.error ?? new Error('not read')));
  });
  database.close();
  return rows;
}
