import { describe, expect, it } from 'vitest';
import type { StoreOptions } from '../../renderer/store/createStore.ts';
import { knownVersion, nativeVersion } from '../../renderer/store/copy/workingCopy.ts';
import { recordsVersion } from '../../shared-types/records/index.ts';
import { memoryJournal } from '../support/memoryJournal.ts';
import type { JournalCall, MemoryJournal } from '../support/memoryJournal.ts';
import {
  deleteDatabase,
  digestsIn,
  fastener,
  FaultyCopy,
  hindranceIn,
  keptJournal,
  limitsToShorten,
  openWindowOn,
  put,
  rawDatabase,
  rawly,
  rowsOf,
  shelf,
  shortLimits,
  windowOn,
} from './support/keptStore.ts';

async function hindranceOf(journal: MemoryJournal, options: Partial<StoreOptions> = {}) {
  const { store } = windowOn(journal, options);
  await store.open();
  const hindrance = hindranceIn(store);
  expect(store.saving().kind).toBe('not-saved');
  await expect(
    store.commit({ action: 'add', title: 'Add', proposals: [put('shelves', shelf('new'))] }),
  ).rejects.toThrow();
  store.close();
  return hindrance;
}

const emptied = (name: string): Promise<void> =>
  rawly(name, ['shelves', 'items', 'meta'], (of) => {
    for (const table of ['shelves', 'items', 'meta']) of.objectStore(table).clear();
  });

describe('opening a store', () => {
  it('begins with nothing where journal and profile are empty', async () => {
    const journal = memoryJournal();
    const { store } = await openWindowOn(journal);
    expect((await rowsOf(store, 'items')).size).toBe(0);
    expect(store.saving()).toEqual({ kind: 'nothing' });
    store.close();
  });

  it('shows again what was kept', async () => {
    const journal = await keptJournal();
    const { store } = await openWindowOn(journal);
    expect([...(await rowsOf(store, 'items')).keys()]).toEqual(['F-1', 'F-2', 'F-3']);
    expect(store.opening()).toEqual({ kind: 'ready', notice: null });
    store.close();
  });

  it.each<[what: string, damage: (name: string) => Promise<void>, reason: RegExp, found: object]>([
    ['an emptied database', emptied, /empty/, { seq: 0, counts: { items: 0, shelves: 0 } }],
    ['a database that is gone', deleteDatabase, /is not there/, { seq: 0, counts: { items: 0 } }],
    [
      'fewer rows than the journal has',
      (name) => rawly(name, ['items'], (of) => of.objectStore('items').delete('F-2')),
      /2 items where the journal has 3/,
      { seq: 4, counts: { items: 2, shelves: 1 } },
    ],
    [
      'more rows than the journal has',
      (name) => rawly(name, ['items'], (of) => of.objectStore('items').put(fastener('F-9', 'crew'))),
      /4 items where the journal has 3/,
      { seq: 4, counts: { items: 4 } },
    ],
    [
      'rows emptied while the head stands',
      (name) => rawly(name, ['items'], (of) => of.objectStore('items').clear()),
      /0 items where the journal has 3/,
      { seq: 4, counts: { items: 0 } },
    ],
    [
      'a head with another hash',
      (name) =>
        rawly(name, ['meta'], (of) => of.objectStore('meta').put({ key: 'head', seq: 4, hash: 'f'.repeat(64) })),
      /not the one that the working copy was made from/,
      { seq: 4, counts: { items: 3 } },
    ],
    [
      'a head that cannot be',
      (name) => rawly(name, ['meta'], (of) => of.objectStore('meta').put({ key: 'head', seq: -1, hash: 'x' })),
      /cannot be read/,
      { seq: 0, counts: { items: 3 } },
    ],
    [
      'a head that is gone',
      (name) => rawly(name, ['meta'], (of) => of.objectStore('meta').delete('head')),
      /does not say how far/,
      { seq: 0, counts: { items: 3 } },
    ],
    [
      'an older head of another past',
      (name) =>
        rawly(name, ['meta'], (of) => of.objectStore('meta').put({ key: 'head', seq: 3, hash: 'f'.repeat(64) })),
      /not the one that the working copy was made from/,
      { seq: 3, counts: { items: 3 } },
    ],
  ])('stops before any screen at %s', async (_what, damage, reason, found) => {
    const journal = await keptJournal();
    await damage(journal.database());
    const before = journal.entries.length;
    const hindrance = await hindranceOf(journal);
    expect(hindrance).toMatchObject({
      kind: 'copy-differs',
      journal: { seq: 4, counts: { items: 3, shelves: 1 } },
      found,
    });
    expect(hindrance.kind === 'copy-differs' && hindrance.reason).toMatch(reason);
    // Looking at it mended nothing in silence, and nothing was written.
    expect(await hindranceOf(journal)).toMatchObject({ kind: 'copy-differs', found });
    expect(journal.entries).toHaveLength(before);
  });

  it('stops where the copy has come further than the journal', async () => {
    const journal = await keptJournal();
    journal.entries.splice(2);
    expect(await hindranceOf(journal)).toMatchObject({
      kind: 'journal-missing',
      journal: { seq: 2, counts: { items: 1 } },
      found: { seq: 4, counts: { items: 3 } },
    });
  });

  it('stops where the journal is empty and some working copy of the profile is not', async () => {
    const journal = await keptJournal();
    const base = journal.database().replace(/-1$/, '');
    const another = memoryJournal({ database: `${base}-7` });
    expect(await hindranceOf(another)).toMatchObject({
      kind: 'journal-missing',
      journal: { seq: 0 },
      found: { seq: 4, counts: { items: 3 } },
    });
    journal.entries.splice(0);
    expect(await hindranceOf(journal)).toMatchObject({
      kind: 'journal-missing',
      journal: { seq: 0 },
      found: { seq: 4 },
    });
  });

  it('stops at a damaged journal and says where it stops', async () => {
    const journal = await keptJournal();
    journal.faults.damage = { intactSeq: 4, file: 'entries-1.jsonl', line: 5, reason: 'the hash does not fit' };
    expect(await hindranceOf(journal)).toMatchObject({
      kind: 'journal-damaged',
      damage: { line: 5 },
      found: { seq: 4, counts: { items: 3 } },
    });
  });

  it('brings a copy that is merely behind up to the journal without a question, and the same twice', async () => {
    const journal = await keptJournal(1);
    const { store, copy } = await openWindowOn(journal);
    copy().fault = new DOMException('gone', 'AbortError');
    await expect(
      store.commit({ action: 'add', title: 'Add F-2', proposals: [put('items', fastener('F-2', 'crew'))] }),
    ).rejects.toThrow();
    store.close();
    expect(journal.entries).toHaveLength(3);

    const again = await openWindowOn(journal);
    expect([...(await rowsOf(again.store, 'items')).keys()]).toEqual(['F-1', 'F-2']);
    expect(again.store.opening()).toEqual({
      kind: 'ready',
      notice: 'One change that the working copy lacked was brought over from the journal.',
    });
    again.store.close();
    const once = await digestsIn(journal.database());
    const third = await openWindowOn(journal);
    third.store.close();
    expect(await digestsIn(journal.database())).toEqual(once);
    expect(third.store.opening()).toEqual({ kind: 'ready', notice: null });
  });

  it('does not replay onto a copy that is behind and has lost rows as well', async () => {
    const journal = await keptJournal(2);
    const { store, copy } = await openWindowOn(journal);
    copy().fault = new DOMException('gone', 'AbortError');
    await expect(
      store.commit({ action: 'add', title: 'Add F-3', proposals: [put('items', fastener('F-3', 'crew'))] }),
    ).rejects.toThrow();
    store.close();
    await rawly(journal.database(), ['items'], (of) => of.objectStore('items').delete('F-1'));
    expect(await hindranceOf(journal)).toMatchObject({
      kind: 'copy-differs',
      reason: expect.stringMatching(/1 item where the journal has 2/),
    });
  });

  it('says what was put aside of an unfinished line', async () => {
    const journal = await keptJournal(1);
    journal.faults.tail = { bytes: 37, file: 'tail-1.txt' };
    const { store } = await openWindowOn(journal);
    expect(store.opening()).toMatchObject({ kind: 'ready', notice: expect.stringMatching(/37 bytes.*tail-1\.txt/) });
    store.close();
  });

  it('says that nobody is there where the host is gone', async () => {
    const journal = await keptJournal(1);
    journal.faults.gone = true;
    expect(await hindranceOf(journal)).toMatchObject({
      kind: 'no-host',
      reason: expect.stringMatching(/does not answer/),
    });
  });
});

describe('a call at the start that never settles', () => {
  const inTime = shortLimits.startMs * 1.25;
  /** What an opening takes here and now where everything answers [ms]: on a busy machine, no opening is quicker. */
  async function ordinaryMs(): Promise<number> {
    const journal = await keptJournal(1);
    const start = performance.now();
    const { store } = await openWindowOn(journal);
    store.close();
    return performance.now() - start;
  }
  it.each<JournalCall>(['open', 'lease'])('is given up in time: the journal’s %s', async (call) => {
    const journal = await keptJournal(1);
    journal.faults.hang.add(call);
    const ordinary = await ordinaryMs();
    const start = performance.now();
    expect(await hindranceOf(journal, { limits: shortLimits })).toMatchObject({
      kind: 'no-answer',
      call: 'the journal',
    });
    expect(performance.now() - start).toBeLessThan(inTime + 200 + 5 * ordinary);
  });

  it('is given up in time: reading the journal for what is lacking', async () => {
    const journal = await keptJournal(1);
    const { store, copy } = await openWindowOn(journal);
    copy().fault = new DOMException('gone', 'AbortError');
    await expect(
      store.commit({ action: 'add', title: 'Add F-2', proposals: [put('items', fastener('F-2', 'crew'))] }),
    ).rejects.toThrow();
    store.close();
    journal.faults.hang.add('read');
    expect(await hindranceOf(journal, { limits: shortLimits })).toMatchObject({
      kind: 'no-answer',
      call: 'the journal',
    });
  });

  it('is given up in time: opening, counting and writing the database', async () => {
    const never = (): never => new Promise(() => undefined) as never;
    class NeverOpens extends FaultyCopy {
      override open = never;
    }
    class NeverCounts extends FaultyCopy {
      override transaction = never;
    }
    for (const Copy of [NeverOpens, NeverCounts]) {
      const journal = await keptJournal(1);
      const { store } = windowOn(journal, { limits: shortLimits, makeCopy: (name) => new Copy(name) });
      const ordinary = await ordinaryMs();
      const start = performance.now();
      await store.open();
      expect(performance.now() - start).toBeLessThan(inTime + 5 * ordinary);
      expect(hindranceIn(store)).toMatchObject({ kind: 'no-answer', call: expect.stringMatching(/the working copy/) });
      store.close();
    }
  });

  it('is given up in time: asking the browser which databases there are', async () => {
    const journal = await keptJournal(1);
    const real = indexedDB.databases.bind(indexedDB);
    indexedDB.databases = () => new Promise(() => undefined);
    try {
      const { store } = windowOn(journal, { limits: shortLimits });
      await store.open();
      expect(hindranceIn(store)).toMatchObject({ kind: 'no-answer', call: 'the list of databases', afterS: 1.5 });
      store.close();
    } finally {
      indexedDB.databases = real;
    }
  });

  it('leaves the program’s own limits under ten seconds', async () => {
    const journal = await keptJournal(1);
    journal.faults.hang.add('open');
    const { store } = windowOn(journal);
    const ordinary = await ordinaryMs();
    const start = performance.now();
    await store.open();
    expect(hindranceIn(store).kind).toBe('no-answer');
    expect(performance.now() - start).toBeLessThan(10_000 + 5 * ordinary);
    store.close();
  });

  it('can be tried again', async () => {
    const journal = await keptJournal(1);
    journal.faults.hang.add('open');
    const { limits, shorten } = limitsToShorten();
    const { store } = windowOn(journal, { limits });
    shorten();
    await store.open();
    journal.faults.hang.clear();
    Object.assign(limits, limitsToShorten().limits);
    await store.open();
    expect(store.opening().kind).toBe('ready');
    store.close();
  });
});

describe('a database of a newer version', () => {
  // Every newer version that this one may meet; the list grows with `knownVersion`.
  const newer = [1, 2, 3, 9].map((more) => knownVersion + more);

  it.each(newer)('of version %i is not opened, not written, and can be exported', async (version) => {
    const journal = await keptJournal();
    const name = journal.database();
    const upgraded = await rawDatabase(name, nativeVersion(version));
    upgraded.close();
    const opened: string[] = [];
    const { store } = windowOn(journal, {
      makeCopy: (copy) => {
        opened.push(copy);
        return new FaultyCopy(copy);
      },
    });
    await store.open();
    expect(hindranceIn(store)).toEqual({ kind: 'newer-version', kept: version, known: knownVersion });
    expect(opened).toEqual([]);
    await expect(
      store.commit({ action: 'add', title: 'Add', proposals: [put('items', fastener('old', 'crew'))] }),
    ).rejects.toThrow();
    const exported = JSON.parse(await store.exportAll());
    expect(exported.workingCopies).toMatchObject([{ name, version: nativeVersion(version), fault: null }]);
    expect(exported.workingCopies[0].tables.items).toHaveLength(3);
    store.close();
    const database = await rawDatabase(name);
    expect(database.version).toBe(nativeVersion(version));
    database.close();
    expect(journal.entries).toHaveLength(4);
  });

  it('is noticed even where it came between looking and opening', async () => {
    const journal = await keptJournal();
    const name = journal.database();
    const real = indexedDB.databases.bind(indexedDB);
    indexedDB.databases = async () => {
      const listed = await real();
      const upgraded = await rawDatabase(name, nativeVersion(knownVersion + 1));
      upgraded.close();
      return listed;
    };
    try {
      const { store } = windowOn(journal);
      await store.open();
      expect(hindranceIn(store)).toMatchObject({ kind: 'newer-version', kept: knownVersion + 1 });
      store.close();
    } finally {
      indexedDB.databases = real;
    }
  });

  it('is one, too, where the journal’s records are newer', async () => {
    const journal = await keptJournal(1);
    journal.faults.schema = recordsVersion + 1;
    const newerVersion = { kind: 'newer-version', kept: recordsVersion + 1, known: recordsVersion };
    expect(await hindranceOf(journal)).toEqual(newerVersion);
  });
});
