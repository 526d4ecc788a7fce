import { describe, expect, it } from 'vitest';
import { knownVersion, nativeVersion } from '../../renderer/store/copy/workingCopy.ts';
import { recordSchemas, tableNames } from '../../shared-types/records/index.ts';
import type { MemoryJournal } from '../support/memoryJournal.ts';
import { memoryJournal } from '../support/memoryJournal.ts';
import {
  callout,
  calloutList,
  deleteDatabase,
  digestsIn,
  discrepancy,
  fastener,
  FaultyCopy,
  frozen,
  hindranceIn,
  keptJournal,
  limitsToShorten,
  openWindowOn,
  outing,
  put,
  rawly,
  remarks,
  remove,
  rowsOf,
  shelf,
  shortLimits,
  step,
  task,
  windowOn,
} from './support/keptStore.ts';
import type { OpeningState } from '../../renderer/store/store.ts';

/** A journal with every kind of entry in it: awkward texts, edits, removals, undone and done again. */
async function workedJournal(): Promise<MemoryJournal> {
  const journal = memoryJournal({ pageSize: 7 });
  const { store } = await openWindowOn(journal);
  const commit = (...proposals: Parameters<typeof store.commit>[0]['proposals']) =>
    store.commit({ action: 'edit', title: 'Edit', proposals });
  await commit(put('shelves', shelf('crew', 'Crëw · ＝1+1 \u202Eabc')), put('shelves', shelf('other')));
  await commit(
    ...Array.from({ length: 40 }, (_, at) => put('items', fastener(`F-${at}`, 'crew', `3/8 ${at} \ud83d\udd27`))),
  );
  await commit(
    put('sites', { id: 'panel', rev: 0, code: 'PANEL' }),
    put('interfaces', { id: 'a', rev: 0, site: 'panel', code: 'A', kind: 'latch', count: 1 }),
  );
  await commit(
    put('tasks', task('job', ['crew'])),
    put('outings', { ...outing('one', 'job'), position: -0 }),
    put('steps', step('s', 'job')),
  );
  await commit(
    put('preferences', {
      ...{ id: 'preferences', rev: 0, units: 'si', scheme: 'dark', person: 'A. Tester' },
      ...{ paper: 'A4', singleKeys: true, task: 'job' },
    }),
  );
  await commit(
    put('calloutLists', calloutList('list', 'job')),
    put('callouts', callout('c-1', 'list', { id: 'C-1', thread: 'M6' })),
    put('asRunLists', { ...calloutList('run', 'job'), callouts: 'list' }),
    put('notes', {
      ...{ id: 'note', rev: 0, task: 'job', sheet: 'preload', name: 'Preload', keptAt: '2026-11-26T08:00:00Z' },
      ...{ typed: { torque: '30 lbf·ft' }, text: 'F = T / (K·d)' },
    }),
    put('asRuns', callout('r-1', 'run', { callout: 'C-1', position: '1', final: '9 N·m' })),
    put('watchOuts', {
      ...{ id: 'w', rev: 0, text: 'The stud seizes.' },
      ties: [{ to: 'item', shelf: 'other', code: 'F-3', called: 'F-3' }],
      learned: { in: 'said', on: '2026-11-25', person: 'Q.' },
    }),
  );
  const revision = await frozen('rev', 'job');
  const events = await remarks(revision, 3);
  for (const proposals of [
    [put('revisions', revision)],
    events.map((event) => put('events', event)),
    [put('discrepancies', discrepancy('d', 'job', 'rev'))],
  ])
    await store.commit({ action: 'record', title: 'Record', undoable: false, proposals });
  await commit(remove('items', { id: 'F-3', rev: 1 }), put('items', { ...fastener('F-4', 'other'), rev: 1 }));
  await store.undo();
  await store.undo();
  await store.redo();
  await commit(remove('items', { id: 'F-39', rev: 1 }));
  store.close();
  return journal;
}

/** Every state that the opening goes through. */
function openingStates(store: { subscribeOpening(listener: () => void): () => void; opening(): OpeningState }) {
  const states: OpeningState[] = [];
  store.subscribeOpening(() => states.push(store.opening()));
  return states;
}

describe('a working copy built again from the journal', () => {
  it('equals the live one, table by table, by SHA-256; and built twice is the same', async () => {
    const journal = await workedJournal();
    const live = journal.database();
    const before = await digestsIn(live);
    expect(tableNames.filter((name) => before[name].count > 0)).toEqual(
      tableNames.filter((name) => name !== 'results'),
    );
    const { store } = await openWindowOn(journal);
    await rowsOf(store, 'items');
    const states = openingStates(store);
    for (const number of [2, 3]) {
      await store.rebuildFromJournal();
      expect(store.opening().kind).toBe('ready');
      expect(journal.database()).toBe(live.replace(/1$/, String(number)));
      expect(await digestsIn(journal.database())).toEqual(before);
    }
    const done = states.flatMap((state) => (state.kind === 'recovering' ? [state.done / state.of] : []));
    expect(done.length).toBeGreaterThan(4);
    expect(done.every((share) => share >= 0 && share <= 1)).toBe(true);
    // The old ones stay where they are.
    expect(await digestsIn(live)).toEqual(before);
    await store.commit({ action: 'add', title: 'Add', proposals: [put('items', fastener('new', 'crew'))] });
    expect((await digestsIn(live)).items.count).toBe(before.items.count);
    store.close();
  });

  it.each<[string, (name: string) => Promise<void>]>([
    [
      'emptied',
      (name) =>
        rawly(name, [...tableNames, 'meta'], (of) =>
          [...tableNames, 'meta'].forEach((table) => of.objectStore(table).clear()),
        ),
    ],
    ['deleted', deleteDatabase],
    ['robbed of some rows', (name) => rawly(name, ['items'], (of) => of.objectStore('items').delete('F-7'))],
  ])('brings back all that a database had which was %s', async (_what, damage) => {
    const journal = await workedJournal();
    const before = await digestsIn(journal.database());
    await damage(journal.database());
    const { store } = windowOn(journal);
    await store.open();
    expect(hindranceIn(store).kind).toBe('copy-differs');
    await store.rebuildFromJournal();
    expect(store.opening().kind).toBe('ready');
    expect(await digestsIn(journal.database())).toEqual(before);
    await store.commit({ action: 'add', title: 'Add', proposals: [put('items', fastener('new', 'crew'))] });
    expect(store.saving().kind).toBe('saved');
    store.close();
  });

  it('changes over to nothing that did not take every record', async () => {
    class Forgetful extends FaultyCopy {
      constructor(name: string) {
        super(name);
        this.use({
          stack: 'dbcore',
          name: 'forgets one',
          create: (core) => ({
            ...core,
            table: (name_) => {
              const table = core.table(name_);
              return {
                ...table,
                mutate: (request) =>
                  table.mutate(
                    name_ === 'items' && request.type === 'put'
                      ? { ...request, values: request.values.map((row) => ({ ...row, parts: 2 })) }
                      : request,
                  ),
              };
            },
          }),
        });
      }
    }
    const journal = await workedJournal();
    const name = journal.database();
    await rawly(name, ['items'], (of) => of.objectStore('items').delete('F-7'));
    const { store } = windowOn(journal, {
      makeCopy: (copy) => (copy === name ? new FaultyCopy(copy) : new Forgetful(copy)),
    });
    await store.open();
    await expect(store.rebuildFromJournal()).rejects.toThrow(/did not take items/);
    expect(journal.database()).toBe(name);
    expect(store.opening()).toMatchObject({
      kind: 'hindered',
      hindrance: { kind: 'copy-differs' },
      failed: expect.stringMatching(/did not take/),
    });
    store.close();
  });

  it('is not built from a journal that does not hold together', async () => {
    const journal = await workedJournal();
    const { store } = await openWindowOn(journal);
    journal.entries.splice(3, 1);
    await expect(store.rebuildFromJournal()).rejects.toThrow(/does not follow upon/);
    store.close();
  });

  it('says so where the new one does not answer either', async () => {
    const journal = await keptJournal(2);
    const name = journal.database();
    await rawly(name, ['items'], (of) => of.objectStore('items').clear());
    class NeverOpens extends FaultyCopy {
      override open = (): never => new Promise(() => undefined) as never;
    }
    const { store } = windowOn(journal, {
      limits: shortLimits,
      makeCopy: (copy) => (copy === name ? new FaultyCopy(copy) : new NeverOpens(copy)),
    });
    await store.open();
    await expect(store.rebuildFromJournal()).rejects.toThrow(/no answer from the new working copy/);
    expect(hindranceIn(store)).toMatchObject({ kind: 'no-answer', call: 'the new working copy (making it)' });
    expect(journal.database()).toBe(name);
    store.close();
  });

  it('waits for the other window that writes, and tells the windows on the old one', async () => {
    const journal = await keptJournal(2);
    const first = await openWindowOn(journal);
    const second = await openWindowOn(journal);
    await expect(second.store.rebuildFromJournal()).rejects.toThrow(/Another window.*Close it first/);
    await first.store.rebuildFromJournal();
    await expect.poll(() => second.store.opening()).toMatchObject({ kind: 'hindered', hindrance: { kind: 'reload' } });
    await second.store.open();
    expect(second.store.opening().kind).toBe('ready');
    first.store.close();
    second.store.close();
  });

  it('goes by the entries before the damage of a damaged journal, whose files are set aside', async () => {
    const journal = await keptJournal(4);
    journal.faults.damage = { intactSeq: 3, file: 'entries-1.jsonl', line: 4, reason: 'the hash does not fit' };
    const { store } = windowOn(journal);
    await store.open();
    expect(hindranceIn(store).kind).toBe('journal-damaged');
    await store.rebuildFromJournal();
    expect(store.opening().kind).toBe('ready');
    expect([...(await rowsOf(store, 'items')).keys()]).toEqual(['F-1', 'F-2']);
    expect(journal.setAside.map((entries) => entries.length)).toEqual([5]);
    store.close();
  });
});

describe('a working copy that is kept', () => {
  it.each<[string, (journal: MemoryJournal) => void]>([
    ['is empty', (journal) => void journal.entries.splice(0)],
    ['ends too early', (journal) => void journal.entries.splice(5)],
    ['is damaged', (journal) => (journal.faults.damage = { intactSeq: 5, file: 'e', line: 6, reason: 'r' })],
  ])('begins a new journal where the old one %s, with every record', async (_what, damage) => {
    const journal = await workedJournal();
    const before = await digestsIn(journal.database());
    damage(journal);
    const old = journal.entries.length;
    const { store } = windowOn(journal);
    await store.open();
    expect(store.opening().kind).toBe('hindered');
    await store.keepWorkingCopy();
    expect(store.opening().kind).toBe('ready');
    expect(await digestsIn(journal.database())).toEqual(before);
    expect(journal.setAside.map((entries) => entries.length)).toEqual([old]);
    expect(new Set(journal.entries.map(({ action }) => action))).toEqual(new Set(['adopt']));
    expect(store.history()).toMatchObject({ undo: null, redo: null });
    // And the new journal is enough to build it again.
    await store.rebuildFromJournal();
    expect(await digestsIn(journal.database())).toEqual(before);
    store.close();
  });

  it('is found under its own name where the journal has forgotten it', async () => {
    const journal = await workedJournal();
    const before = await digestsIn(journal.database());
    const emptied = memoryJournal({ database: journal.database().replace(/-1$/, '-9') });
    const { store } = windowOn(emptied);
    await store.open();
    expect(hindranceIn(store).kind).toBe('journal-missing');
    await store.keepWorkingCopy();
    expect(emptied.database()).toBe(journal.database());
    expect(store.opening().kind).toBe('ready');
    expect(await digestsIn(emptied.database())).toEqual(before);
    store.close();
  });

  it('begins no journal with a record that is not whole', async () => {
    const journal = await keptJournal(2);
    await rawly(journal.database(), ['items'], (of) =>
      of.objectStore('items').put({ ...fastener('F-1', 'crew'), parts: 0 }),
    );
    journal.entries.splice(0);
    const { store } = windowOn(journal);
    await store.open();
    await expect(store.keepWorkingCopy()).rejects.toThrow(/item F-1: parts/);
    expect(journal.setAside).toEqual([]);
    expect(store.opening()).toMatchObject({ kind: 'hindered', failed: expect.stringMatching(/item F-1/) });
    store.close();
  });

  it('is taken up again where beginning broke off in the middle', async () => {
    const journal = await workedJournal();
    const before = await digestsIn(journal.database());
    journal.entries.splice(0);
    const { store } = windowOn(journal);
    await store.open();
    journal.faults.refuseAppends = { code: 'disk', times: 1 };
    await expect(store.keepWorkingCopy()).rejects.toThrow(/disk/);
    expect(store.opening().kind).toBe('hindered');
    await store.open();
    expect(hindranceIn(store).kind).toBe('journal-missing');
    await store.keepWorkingCopy();
    expect(store.opening().kind).toBe('ready');
    expect(await digestsIn(journal.database())).toEqual(before);
    store.close();
  });
});

describe('a snapshot from before', () => {
  const asking = (journal: MemoryJournal, refuses = false) => {
    const asked: string[] = [];
    const make = async ({ why }: { why: string }) => {
      if (refuses) throw new Error('ENOSPC');
      asked.push(`${why} at entry ${journal.entries.length}`);
      return null;
    };
    return { asked, snapshots: { make, meant: async () => undefined } };
  };

  it('is asked for before much is removed and before a recovery, and not before what is small', async () => {
    const journal = await keptJournal(30);
    const { asked, snapshots } = asking(journal);
    const { store } = await openWindowOn(journal, { snapshots });
    const gone = (from: number, to: number) =>
      Array.from({ length: to - from }, (_, at) => remove('items', { id: `F-${from + at}`, rev: 1 }));
    await store.commit({ action: 'remove', title: 'Remove', proposals: gone(1, 4) });
    expect(asked).toEqual([]);
    await store.commit({ action: 'remove', title: 'Remove', proposals: gone(4, 30) });
    expect(asked).toEqual(['before-deletion at entry 32']);
    await store.rebuildFromJournal();
    expect(asked.slice(1)).toEqual(['before-recovery at entry 33']);
    store.close();
  });

  it('that cannot be made keeps a large change from being made, and no recovery from going on', async () => {
    const journal = await keptJournal(3);
    const { store } = await openWindowOn(journal, asking(journal, true));
    const many = Array.from({ length: 501 }, (_, at) => put('items', fastener(`N-${at}`, 'crew')));
    await expect(store.commit({ action: 'import', title: 'Import', proposals: many })).rejects.toThrow(
      'Import: nothing was changed, because a snapshot has to be there before it. ENOSPC.',
    );
    expect(journal.entries).toHaveLength(4);
    await store.rebuildFromJournal();
    expect(store.opening().kind).toBe('ready');
    store.close();
  });
});

describe('everything as one text', () => {
  it('holds every entry and every record', async () => {
    const journal = await workedJournal();
    const { store } = await openWindowOn(journal);
    const everything = JSON.parse(await store.exportAll());
    expect(everything).toMatchObject({ bagwright: 'everything', form: 1 });
    expect(everything.journal.entries).toEqual(journal.entries);
    expect(everything.journal).toMatchObject({ count: journal.entries.length, fault: null, state: { damage: null } });
    const [copy] = everything.workingCopies;
    expect(copy).toMatchObject({ name: journal.database(), version: nativeVersion(knownVersion), fault: null });
    const digests = await digestsIn(journal.database());
    for (const name of tableNames) {
      expect(copy.tables[name]).toHaveLength(digests[name].count);
      for (const row of copy.tables[name]) expect(recordSchemas[name].safeParse(row).success).toBe(true);
    }
    store.close();
  });

  it('holds what there is, and the reason for the rest', async () => {
    const journal = await keptJournal(2);
    const { limits, shorten } = limitsToShorten();
    const { store } = await openWindowOn(journal, { limits });
    shorten();
    journal.faults.gone = true;
    const withoutHost = JSON.parse(await store.exportAll());
    expect(withoutHost.journal).toMatchObject({ entries: [], fault: expect.stringMatching(/does not answer/) });
    expect(withoutHost.workingCopies[0].tables.items).toHaveLength(2);
    journal.faults.gone = false;
    store.close();
    await deleteDatabase(journal.database());
    const withoutCopy = JSON.parse(await store.exportAll());
    expect(withoutCopy.journal.entries).toHaveLength(3);
    expect(withoutCopy.workingCopies).toEqual([]);
  });
});
