/**
 * Working copies of earlier versions: a new one is built beside each, and the old one is never touched; whatever breaks it off.
 * `VITE_MIGRATION_TRIALS=20` kills at every step so many times, `VITE_MIGRATION_SEED` repeats a run.
 */
import { describe, expect, it } from 'vitest';
import { canonicalJson } from '../../shared-types/canonicalJson.ts';
import { recordsVersion, tableNames } from '../../shared-types/records/index.ts';
import { baseOf, numberOf } from '../../renderer/store/copy/databaseNames.ts';
import { digestOfRecords } from '../../renderer/store/copy/digest.ts';
import { listDatabases, rawContents } from '../../renderer/store/copy/rawDatabase.ts';
import { knownVersion, nativeVersion } from '../../renderer/store/copy/workingCopy.ts';
import { createStore } from '../../renderer/store/createStore.ts';
import { dice } from '../reference/dice.ts';
import type { MemoryJournal } from '../support/memoryJournal.ts';
import { goldenTables } from '../support/released/index.ts';
import type { Released } from '../support/released/index.ts';
import { earlierProfile, released } from './support/earlierProfile.ts';
import { killable } from './support/killable.ts';
import type { Death } from './support/killable.ts';
import {
  deleteDatabase,
  digestsIn,
  fastener,
  hindranceIn,
  openWindowOn,
  put,
  rawly,
  rowsOf,
  windowOn,
} from './support/keptStore.ts';

const trials = Number(import.meta.env['VITE_MIGRATION_TRIALS'] ?? 0);
const seed = Number(import.meta.env['VITE_MIGRATION_SEED'] ?? 4711);

const goldenDigests = async (one: Released) => {
  const rows = goldenTables(one);
  const digests = await Promise.all(
    tableNames.map(async (name) => [name, await digestOfRecords(rows.get(name)?.values() ?? [])] as const),
  );
  return Object.fromEntries(digests);
};

const databasesOf = async (journal: MemoryJournal) =>
  (await listDatabases())
    .filter(({ name }) => baseOf(name) === baseOf(journal.database()))
    .toSorted((a, b) => numberOf(a.name) - numberOf(b.name));

async function forget(journal: MemoryJournal): Promise<void> {
  for (const { name } of await databasesOf(journal)) await deleteDatabase(name);
}

const newest = (): Released => {
  const last = released.at(-1);
  if (last === undefined) throw new Error('nothing is released');
  return last;
};

describe.each(released)('a working copy of version $version', (one) => {
  it('stays as it is while a new one is built with every field of every record, and what is done next goes there', async () => {
    const journal = await earlierProfile(one);
    const old = journal.database();
    const before = canonicalJson(await rawContents(old));
    const { store } = await openWindowOn(journal);
    expect(store.opening()).toMatchObject({
      notice: expect.stringContaining(`was of version ${one.version}: a new one of version ${knownVersion}`) as string,
    });
    expect(journal.database()).toBe(old.replace(/1$/, '2'));
    const golden = goldenTables(one);
    const kept = await store.readAll();
    for (const name of tableNames)
      expect(Object.fromEntries(kept.get(name) ?? []), name).toEqual(Object.fromEntries(golden.get(name) ?? []));
    await store.commit({
      ...{ action: 'add', title: 'Add' },
      proposals: [put('items', { ...fastener('new', 'crew'), position: 7 })],
    });
    expect(journal.entries.at(-1)?.schema).toBe(recordsVersion);
    await store.undo();
    // Back over what the earlier program did: the shelf that it removed.
    await store.undo();
    expect((await rowsOf(store, 'shelves')).get('gone')).toMatchObject({ name: 'Goes again' });
    store.close();
    expect(canonicalJson(await rawContents(old))).toBe(before);
    expect((await databasesOf(journal)).map(({ version }) => version)).toEqual([
      nativeVersion(one.version),
      nativeVersion(knownVersion),
    ]);
    await forget(journal);
  });
});

describe('a working copy of an earlier version', () => {
  it('that is not what the journal says stops before any screen, nothing is built, and both ways on leave it alone', async () => {
    for (const way of ['rebuildFromJournal', 'keepWorkingCopy'] as const) {
      const journal = await earlierProfile(newest());
      const old = journal.database();
      await rawly(old, ['items'], (of) => of.objectStore('items').delete('g-1'));
      const before = canonicalJson(await rawContents(old));
      const { store } = windowOn(journal);
      await store.open();
      expect(hindranceIn(store)).toMatchObject({ kind: 'copy-differs', found: { counts: { items: 7 } } });
      expect(await databasesOf(journal)).toHaveLength(1);
      await store[way]();
      expect(store.opening().kind).toBe('ready');
      expect((await rowsOf(store, 'items')).size).toBe(way === 'keepWorkingCopy' ? 7 : 8);
      store.close();
      expect(canonicalJson(await rawContents(old))).toBe(before);
      await forget(journal);
    }
  });

  it('waits for the window that writes, and goes over to what another window has built meanwhile', async () => {
    const journal = await earlierProfile(newest());
    const holder = journal.window();
    const lease = await holder.lease({ takeOver: false }, () => undefined);
    const { store } = windowOn(journal);
    await store.open();
    expect(hindranceIn(store)).toMatchObject({ kind: 'older-copy', reason: expect.stringMatching(/close it first/) });
    lease?.end();
    const [first, second] = [windowOn(journal), windowOn(journal)];
    await Promise.all([first.store.open(), second.store.open()]);
    await store.open();
    expect([store, first.store, second.store].map((each) => each.opening().kind)).toEqual(['ready', 'ready', 'ready']);
    expect(await databasesOf(journal)).toHaveLength(2);
    for (const each of [store, first.store, second.store]) each.close();
    await forget(journal);
  });

  it('is built of a journal that had come further, with what it lacked', async () => {
    const one = newest();
    const journal = await earlierProfile(one);
    const last = journal.entries.at(-2);
    const undone = journal.entries.at(-1);
    if (last === undefined || undone === undefined) throw new Error('no entries');
    // As it was before the last entry, which took a shelf away again.
    await rawly(journal.database(), ['shelves', 'meta'], (of) => {
      of.objectStore('shelves').put(undone.payload.changes[0]?.before);
      of.objectStore('meta').put({ key: 'head', seq: last.seq, hash: last.hash });
    });
    const { store } = await openWindowOn(journal);
    expect(await digestsIn(journal.database())).toEqual(await goldenDigests(one));
    store.close();
    await forget(journal);
  });

  it('that cannot be built says why, and is there as it was', async () => {
    const journal = await earlierProfile(newest());
    const old = journal.database();
    const doomed = killable(journal.window());
    const store = createStore({
      journal: { ...doomed.journal, setDatabase: () => Promise.reject(new Error('the disk is full')) },
      makeCopy: doomed.makeCopy,
    });
    await store.open();
    expect(hindranceIn(store)).toMatchObject({ kind: 'older-copy', reason: expect.stringMatching(/the disk is full/) });
    expect(journal.database()).toBe(old);
    store.close();
    const { store: again } = await openWindowOn(journal);
    expect(await digestsIn(journal.database())).toEqual(await goldenDigests(newest()));
    again.close();
    await forget(journal);
  });
});

/** A window that opens and dies on the way. @returns the steps it came to */
async function openAndDie(journal: MemoryJournal, death: Death | null): Promise<number> {
  const doomed = killable(journal.window(), death);
  const store = createStore({ journal: doomed.journal, makeCopy: doomed.makeCopy });
  await Promise.race([doomed.died, store.open()]);
  store.close();
  journal.endLease('its window is gone');
  return doomed.steps.length;
}

/** One window dies on the way, the next one dies at another step of the same way, and the third goes it to the end. */
async function diesTwice(one: Released, deaths: readonly [Death, Death], golden: object): Promise<void> {
  const journal = await earlierProfile(one, 7);
  const old = journal.database();
  const before = canonicalJson(await rawContents(old));
  for (const death of deaths) await openAndDie(journal, death);
  const where = deaths.map(({ at, when }) => `${when} step ${at}`).join(', then ');
  // Whichever it points at holds all of it already.
  if (journal.database() !== old) expect(await digestsIn(journal.database()), where).toEqual(golden);
  const { store } = windowOn(journal);
  await store.open();
  expect(store.opening().kind, where).toBe('ready');
  store.close();
  expect(await digestsIn(journal.database()), where).toEqual(golden);
  expect(canonicalJson(await rawContents(old)), where).toBe(before);
  await forget(journal);
}

describe(`going over to a new working copy, killed at every step (seed ${seed})`, () => {
  it.for(released)(
    'from version $version ends with the records that were there, in the old one or the new one',
    { timeout: 6_000_000 },
    async (one, { task }) => {
      const chance = dice(seed + one.version);
      const golden = await goldenDigests(one);
      const whole = await earlierProfile(one, 7);
      const steps = await openAndDie(whole, null);
      await forget(whole);
      expect(steps).toBeGreaterThan(15);
      const when = (): Death['when'] => (chance.whole(0, 1) === 0 ? 'before' : 'after');
      // In short: some, and the last ones, where the pointer moves.
      const ats =
        trials > 0
          ? Array.from({ length: steps * trials }, (_, at) => (at % steps) + 1)
          : [chance.whole(1, steps), chance.whole(1, steps), steps - 1, steps];
      // For whoever counts how many kills were tried.
      Object.assign(task.meta, { kills: ats.length });
      const failures: string[] = [];
      for (const at of ats) {
        const deaths = [
          { at, when: when() },
          { at: chance.whole(1, steps), when: when() },
        ] as const;
        await diesTwice(one, deaths, golden).catch((error: unknown) => failures.push(String(error)));
      }
      expect(failures).toEqual([]);
    },
  );
});
