/** Many records at once: saved when they are laid down, whole in their tables or not at all, whatever comes in between. */
import { describe, expect, it } from 'vitest';
import { layDown, manyFrom, takeIn } from '../../renderer/store/copy/arrivals.ts';
import { WorkingCopy } from '../../renderer/store/copy/workingCopy.ts';
import type { Proposal } from '../../renderer/store/store.ts';
import type { MemoryJournal } from '../support/memoryJournal.ts';
import {
  digestsIn,
  fastener,
  hindranceIn,
  keptJournal,
  openWindowOn,
  put,
  rowsOf,
  windowOn,
} from './support/keptStore.ts';

const many = manyFrom + 100;
const imported = (from = 0): Proposal[] =>
  Array.from({ length: many }, (_, at) => put('items', fastener(`N-${String(from + at).padStart(6, '0')}`, 'crew')));
const act = (proposals: Proposal[]) => ({ action: 'import', title: 'Import', proposals });

/** A journal with a large entry, and a working copy as a window leaves it that goes between the two. */
async function interrupted(spoil: (copy: WorkingCopy) => Promise<unknown> = async () => undefined) {
  const journal = await keptJournal(2);
  const name = journal.database();
  const before = await digestsIn(name);
  const { store } = await openWindowOn(journal);
  await store.commit(act(imported()));
  const after = await settledDigests(journal);
  store.close();
  const entry = journal.entries.at(-1);
  if (entry === undefined) throw new Error('no entry');
  const { seq, hash, prevHash, payload } = entry;
  const copy = new WorkingCopy(name);
  await copy.open();
  // Back to what it was before the entry, and the entry laid down beside it.
  await copy.table('items').bulkDelete(payload.changes.map(({ id }) => id));
  await copy.meta().put({ key: 'head', seq: seq - 1, hash: prevHash });
  await layDown(copy, { seq, hash, prevHash, changes: payload.changes });
  await spoil(copy);
  copy.shut();
  expect((await digestsIn(name)).items).toEqual(before.items);
  return { journal, name, after };
}

async function settledDigests(journal: MemoryJournal) {
  await expect.poll(async () => (await digestsIn(journal.database())).items.count).toBeGreaterThan(many);
  return await digestsIn(journal.database());
}

describe('many records in one act', () => {
  it('are shown and saved before their tables have them, and are there for the next change and its undo', async () => {
    const journal = await keptJournal(2);
    const { store } = await openWindowOn(journal);
    const items = await rowsOf(store, 'items');
    expect(items.size).toBe(2);
    await store.commit(act(imported()));
    expect(store.saving().kind).toBe('saved');
    expect(store.table('items').state().rows.size).toBe(many + 2);
    await store.commit(act([put('items', { ...fastener('N-000007', 'crew'), rev: 1, notes: 'x' })]));
    expect(store.table('items').state().rows.get('N-000007')).toMatchObject({ rev: 2, notes: 'x' });
    await store.undo();
    await store.undo();
    expect(store.table('items').state().rows.size).toBe(2);
    await store.redo();
    const { items: kept } = await settledDigests(journal);
    expect(kept.count).toBe(many + 2);
    store.close();
  });

  it('are taken in by the next window where the one that laid them down went', async () => {
    const { journal, name, after } = await interrupted();
    const { store } = await openWindowOn(journal);
    expect((await digestsIn(name)).items).toEqual(after.items);
    expect((await rowsOf(store, 'items')).size).toBe(many + 2);
    store.close();
  });

  it('come from the journal where a block of them is gone or of another entry', async () => {
    for (const spoil of [
      (copy: WorkingCopy) => copy.arrivals().delete(3),
      (copy: WorkingCopy) => copy.arrivals().update(0, { prevHash: 'f'.repeat(64) }),
    ]) {
      const { journal, name, after } = await interrupted(spoil);
      const { store } = await openWindowOn(journal);
      expect((await digestsIn(name)).items).toEqual(after.items);
      store.close();
    }
  });

  it('are kept where the journal is lost: they count as what the working copy holds', async () => {
    const { journal, name, after } = await interrupted();
    journal.entries.length = 0;
    const { store } = windowOn(journal);
    await store.open();
    expect(hindranceIn(store)).toMatchObject({ kind: 'journal-missing', found: { counts: { items: many + 2 } } });
    await store.keepWorkingCopy();
    expect(store.opening().kind).toBe('ready');
    expect((await digestsIn(name)).items).toEqual(after.items);
    store.close();
  });

  it('do not lie down behind another entry than their own', async () => {
    const journal = await keptJournal(2);
    const copy = new WorkingCopy(journal.database());
    await copy.open();
    const { seq, hash } = journal.entries.at(-1) ?? { seq: 0, hash: '' };
    const entry = { seq: seq + 1, hash: 'a'.repeat(64), prevHash: hash, changes: [] };
    for (const wrong of [{ seq: seq + 2 }, { seq }, { prevHash: 'b'.repeat(64) }])
      await expect(layDown(copy, { ...entry, ...wrong })).rejects.toThrow(/does not follow upon/);
    expect(await copy.arrivals().count()).toBe(0);
    copy.shut();
  });

  it('are tried again before the next change where the tables did not take them', async () => {
    const journal = await keptJournal(2);
    const { store, copy } = await openWindowOn(journal);
    await store.commit(act(imported()));
    copy().takes(Promise.reject(new Error('not taken')));
    await store.commit(act([put('items', fastener('F-9', 'crew'))]));
    expect((await digestsIn(journal.database())).items.count).toBe(many + 3);
    expect(await copy().arrivals().count()).toBe(0);
    store.close();
  });

  it('are taken in once, by whichever of two windows comes first', async () => {
    const { journal, name, after } = await interrupted();
    const one = new WorkingCopy(name);
    const other = new WorkingCopy(name);
    await Promise.all([one.open(), other.open()]);
    await Promise.all([takeIn(one), takeIn(other)]);
    one.shut();
    other.shut();
    expect((await digestsIn(name)).items).toEqual(after.items);
    const { store } = await openWindowOn(journal);
    store.close();
  });
});
