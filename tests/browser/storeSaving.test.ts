import Dexie from 'dexie';
import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../renderer/engine/errors.ts';
import { NotSavedError } from '../../renderer/store/store.ts';
import type { SaveState } from '../../renderer/store/store.ts';
import { whyNotSaved } from '../../renderer/store/writing/whyNotSaved.ts';
import {
  digestsIn,
  fastener,
  keptJournal,
  limitsToShorten,
  openWindowOn,
  put,
  rowsOf,
  saveStates,
  shelf,
  shortLimits,
  unhandledIn,
} from './support/keptStore.ts';

const addItem = (code: string) => ({
  action: 'add',
  title: `Add ${code}`,
  proposals: [put('items', fastener(code, 'crew'))],
});

/** Nothing but the three words, and `saved` never beside a change that is not kept. */
function expectTruthful(states: readonly SaveState[]): void {
  expect(states.length).toBeGreaterThan(0);
  for (const state of states) expect(['saving', 'saved', 'not-saved']).toContain(state.kind);
}

const bulk = new Dexie.BulkError('items.bulkPut(): 1 of 1 operations failed', [
  new DOMException('The transaction was aborted', 'AbortError'),
] as never);

const databaseFaults: [name: string, fault: unknown, words: RegExp][] = [
  ['AbortError', new DOMException('aborted', 'AbortError'), /gave the write up.*full.*AbortError/],
  ['UnknownError', new DOMException('backing store', 'UnknownError'), /full.*damaged.*UnknownError/],
  ['BulkError', bulk, /none was kept.*gave the write up/],
  ['DatabaseClosedError', new Dexie.DatabaseClosedError(), /closed under this window/],
  ['InvalidStateError', new DOMException('closing', 'InvalidStateError'), /closed under this window/],
  ['QuotaExceededError', new DOMException('quota', 'QuotaExceededError'), /disk.*full/],
];

describe('a change that the database does not take', () => {
  it.each(databaseFaults)(
    'is NOT SAVED, in words, at %s; and is kept once the fault is over',
    async (_name, fault, words) => {
      const journal = await keptJournal(1);
      const unhandled = await unhandledIn(async () => {
        const { store, copy } = await openWindowOn(journal);
        const items = await rowsOf(store, 'items');
        const states = saveStates(store);
        copy().fault = fault;
        // What the journal has is not said to be as it was before; what it was never asked for is.
        await expect(store.commit(addItem('F-2'))).rejects.toMatchObject({ name: 'NotSavedError', inDoubt: true });
        await expect(store.commit(addItem('F-3'))).rejects.toMatchObject({
          message: expect.stringMatching(words),
          inDoubt: false,
        });
        expect(store.saving()).toMatchObject({ kind: 'not-saved', reason: expect.stringMatching(words) });
        expect(states.some(({ kind }) => kind === 'saved')).toBe(false);
        // What lists show is what is saved.
        expect(store.table('items').state().rows).toBe(items);
        // The one is in the journal and pending, the other was not even begun: the journal must be caught up with first.
        expect(journal.entries.map(({ payload }) => payload.title)).toEqual(['Add a shelf', 'Add F-1', 'Add F-2']);

        copy().fault = null;
        store.saveAgain();
        await expect.poll(() => store.saving().kind).toBe('saved');
        expectTruthful(states);
        expect([...store.table('items').state().rows.keys()]).toEqual(['F-1', 'F-2', 'F-3']);
        store.close();
      });
      expect(unhandled).toEqual([]);
      expect(journal.entries.map(({ seq }) => seq)).toEqual([1, 2, 3, 4]);
      expect((await digestsIn(journal.database())).items.count).toBe(3);
    },
  );

  it('is brought up from the journal by the next change, before that', async () => {
    const journal = await keptJournal(1);
    const { store, copy } = await openWindowOn(journal);
    copy().fault = new DOMException('aborted', 'AbortError');
    await expect(store.commit(addItem('F-2'))).rejects.toThrow(NotSavedError);
    copy().fault = null;
    await store.commit(addItem('F-3'));
    expect(store.saving().kind).toBe('saved');
    expect([...(await rowsOf(store, 'items')).keys()]).toEqual(['F-1', 'F-2', 'F-3']);
    expect(store.history().recent.map(({ title }) => title)).toEqual(['Add F-3', 'Add F-2', 'Add F-1', 'Add a shelf']);
    store.close();
  });

  it('is known again when the form sends it once more, and is not written twice', async () => {
    const journal = await keptJournal(1);
    const { store, copy } = await openWindowOn(journal);
    copy().fault = new DOMException('aborted', 'AbortError');
    await expect(store.commit(addItem('F-2'))).rejects.toThrow(NotSavedError);
    copy().fault = null;
    await store.commit(addItem('F-2'));
    expect(store.saving().kind).toBe('saved');
    expect(journal.entries.filter(({ payload }) => payload.title === 'Add F-2')).toHaveLength(1);
    store.close();
  });

  it('is NOT SAVED when the database never answers', async () => {
    const journal = await keptJournal(1);
    const { limits, shorten } = limitsToShorten();
    const { store, copy } = await openWindowOn(journal, { limits });
    shorten();
    copy().hangs = true;
    const start = performance.now();
    await expect(store.commit(addItem('F-2'))).rejects.toThrow(/no answer from the working copy/);
    // By the limit given here, not by the program's own of ten seconds; the rest is left to a busy machine.
    expect(performance.now() - start).toBeLessThan(shortLimits.callMs * 8);
    expect(store.saving()).toMatchObject({ kind: 'not-saved', reason: expect.stringMatching(/no answer/) });
    store.close();
    // The window is gone between append and database; the next one finds the change.
    const next = await openWindowOn(journal);
    expect([...(await rowsOf(next.store, 'items')).keys()]).toEqual(['F-1', 'F-2']);
    next.store.close();
  });

  it('leaves no half of a change: all of its records or none', async () => {
    const journal = await keptJournal(0);
    const { store, copy } = await openWindowOn(journal);
    const proposals = [
      put('shelves', shelf('second')),
      ...Array.from({ length: 50 }, (_, at) => put('items', fastener(`G-${at}`, 'second'))),
    ];
    copy().fault = new DOMException('aborted', 'AbortError');
    await expect(store.commit({ action: 'import', title: 'Import', proposals })).rejects.toThrow(NotSavedError);
    const before = await digestsIn(journal.database());
    expect([before.shelves.count, before.items.count]).toEqual([1, 0]);
    copy().fault = null;
    store.saveAgain();
    await expect.poll(() => store.saving().kind).toBe('saved');
    const after = await digestsIn(journal.database());
    expect([after.shelves.count, after.items.count]).toEqual([2, 50]);
    store.close();
  });
});

describe('a change that the journal does not take', () => {
  it.each(['disk', 'not-available'] as const)(
    'is NOT SAVED at %s, is not in the database, and can be tried again',
    async (code) => {
      const journal = await keptJournal(1);
      const unhandled = await unhandledIn(async () => {
        const { store } = await openWindowOn(journal);
        const states = saveStates(store);
        journal.faults.refuseAppends = { code, times: 2 };
        await expect(store.commit(addItem('F-2'))).rejects.toMatchObject({
          name: 'NotSavedError',
          // A disk that refuses says so; a program that is gone says nothing.
          inDoubt: code === 'not-available',
        });
        expect(store.saving()).toMatchObject({ kind: 'not-saved' });
        expect(journal.entries).toHaveLength(2);
        expect((await digestsIn(journal.database())).items.count).toBe(1);
        journal.faults.refuseAppends = null;
        store.saveAgain();
        await expect.poll(() => store.saving().kind).toBe('saved');
        expect(journal.entries).toHaveLength(3);
        expectTruthful(states);
        expect(states.map(({ kind }) => kind).lastIndexOf('not-saved')).toBeLessThan(states.length - 1);
        store.close();
      });
      expect(unhandled).toEqual([]);
    },
  );

  it('stays NOT SAVED while another change is kept, until it is tried again', async () => {
    const journal = await keptJournal(1);
    const { store } = await openWindowOn(journal);
    journal.faults.refuseAppends = { code: 'disk', times: 1 };
    await expect(store.commit(addItem('F-2'))).rejects.toThrow(/the disk did not take it/);
    await store.commit(addItem('F-3'));
    expect(store.saving().kind).toBe('not-saved');
    store.saveAgain();
    await expect.poll(() => store.saving().kind).toBe('saved');
    expect([...(await rowsOf(store, 'items')).keys()].toSorted()).toEqual(['F-1', 'F-2', 'F-3']);
    store.close();
  });

  it('is settled by a later change of the same record', async () => {
    const journal = await keptJournal(1);
    const { store } = await openWindowOn(journal);
    journal.faults.refuseAppends = { code: 'disk', times: 1 };
    await expect(store.commit(addItem('F-2'))).rejects.toThrow(NotSavedError);
    await store.commit({ ...addItem('F-2'), title: 'Add F-2 after all' });
    expect(store.saving().kind).toBe('saved');
    store.saveAgain();
    expect(journal.entries.filter(({ payload }) => payload.changes[0]?.id === 'F-2')).toHaveLength(1);
    store.close();
  });

  it('is NOT SAVED when the journal never answers, and found when it had been written', async () => {
    const journal = await keptJournal(1);
    const { limits, shorten } = limitsToShorten();
    const { store } = await openWindowOn(journal, { limits });
    shorten();
    journal.faults.hang.add('append');
    const start = performance.now();
    await expect(store.commit(addItem('F-2'))).rejects.toThrow(/no answer from the journal/);
    // By the limit given here, not by the program's own of ten seconds; the rest is left to a busy machine.
    expect(performance.now() - start).toBeLessThan(shortLimits.callMs * 8);
    journal.faults.hang.clear();
    store.saveAgain();
    await expect.poll(() => store.saving().kind).toBe('saved');
    expect(journal.entries).toHaveLength(3);
    store.close();
  });

  it('takes the host’s word and the host’s alone: gone is NOT SAVED within a second', async () => {
    const journal = await keptJournal(1);
    const { store } = await openWindowOn(journal);
    const began = performance.now();
    await store.commit(addItem('F-3'));
    const ordinaryMs = performance.now() - began;
    journal.faults.gone = true;
    const start = performance.now();
    await expect(store.commit(addItem('F-2'))).rejects.toThrow(/does not answer/);
    // A second, and what a save that succeeds takes here and now: nobody waits for the limit of ten.
    expect(performance.now() - start).toBeLessThan(1000 + 5 * ordinaryMs);
    expect(store.saving().kind).toBe('not-saved');
    store.close();
  });
});

describe('an answer that is lost', () => {
  it('is found by its key: kept, once, and called saved', async () => {
    const journal = await keptJournal(1);
    const { store } = await openWindowOn(journal);
    for (let round = 2; round <= 41; round += 1) {
      journal.faults.loseAnswers = 1;
      const { seq } = await store.commit(addItem(`F-${round}`));
      expect(seq).toBe(round + 1);
      expect(store.saving().kind).toBe('saved');
    }
    expect(journal.entries).toHaveLength(42);
    expect(new Set(journal.entries.map(({ payload }) => payload.key)).size).toBe(42);
    store.close();
  });

  it('is in doubt where the journal, asked for it, could not be read', async () => {
    const journal = await keptJournal(1);
    const host = journal.window();
    const { store } = await openWindowOn(journal, {
      journal: { ...host, read: () => Promise.reject(new RefusedError({ code: 'disk', message: 'EIO' })) },
    });
    journal.faults.loseAnswers = 1;
    await expect(store.commit(addItem('F-2'))).rejects.toMatchObject({ name: 'NotSavedError', inDoubt: true });
    expect(journal.entries).toHaveLength(3);
    store.close();
  });

  it('is found later where the journal was gone too when it was asked', async () => {
    const journal = await keptJournal(1);
    const { limits, shorten } = limitsToShorten();
    const { store } = await openWindowOn(journal, { limits });
    shorten();
    journal.faults.loseAnswers = 1;
    journal.faults.hang.add('read');
    await expect(store.commit(addItem('F-2'))).rejects.toMatchObject({ name: 'NotSavedError', inDoubt: true });
    expect(store.saving().kind).toBe('not-saved');
    journal.faults.hang.clear();
    store.saveAgain();
    await expect.poll(() => store.saving().kind).toBe('saved');
    expect(journal.entries.filter(({ payload }) => payload.title === 'Add F-2')).toHaveLength(1);
    expect([...(await rowsOf(store, 'items')).keys()]).toEqual(['F-1', 'F-2']);
    store.close();
  });
});

describe('the save line', () => {
  it('says Saving, then Saved with the time, for each change and never in between', async () => {
    const journal = await keptJournal(0);
    const at = new Date('2026-03-04T10:42:00Z');
    const { store } = await openWindowOn(journal, { now: () => at });
    const states = saveStates(store);
    const commits = [1, 2, 3].map((number) => store.commit(addItem(`F-${number}`)));
    expect(store.saving()).toEqual({ kind: 'saving' });
    for (const commit of commits) await commit;
    expect(states.filter(({ kind }) => kind === 'saved')).toEqual([{ kind: 'saved', at }]);
    expect(states.at(-1)).toEqual({ kind: 'saved', at });
    store.close();
  });

  it('says Saved only once the database has it', async () => {
    const journal = await keptJournal(0);
    const { store, copy } = await openWindowOn(journal);
    const before = copy().written;
    const writtenWhenSaid: number[] = [];
    store.subscribeSaving(() => {
      if (store.saving().kind === 'saved') writtenWhenSaid.push(copy().written - before);
    });
    await store.commit(addItem('F-1'));
    expect(writtenWhenSaid).toEqual([1]);
    expect((await digestsIn(journal.database())).items.count).toBe(1);
    store.close();
  });
});

describe('why it is not saved', () => {
  it.each<[unknown, RegExp]>([
    [new Error('odd'), /^odd$/],
    ['a text', /^a text$/],
    [new TypeError('x is not'), /x is not \(TypeError\)/],
    [new DOMException('', 'SomethingNew'), /^SomethingNew$/],
    [new Error(''), /./],
    [undefined, /./],
  ])('is never empty: %s', (error, words) => {
    expect(whyNotSaved(error)).toMatch(words);
  });
});
