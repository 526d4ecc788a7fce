import { describe, expect, it } from 'vitest';
import type { EntryHead } from '../../shared-types/journal.ts';
import { recentMost } from '../../shared-types/journal.ts';
import { historyOf } from '../../renderer/store/writing/history.ts';
import { RefusedError } from '../../renderer/engine/errors.ts';
import { ConflictError } from '../../renderer/store/store.ts';
import type { Proposal, Store } from '../../renderer/store/store.ts';
import {
  contentDigests,
  digestsIn,
  fastener,
  keptJournal,
  openWindowOn,
  outing,
  put,
  remove,
  rowsOf,
  shelf,
  step,
  task,
} from './support/keptStore.ts';

const act = (title: string, ...proposals: Proposal[]) => ({ action: 'edit', title, proposals });

/** The record as it is kept now, changed in some fields. */
function changed(store: Store, id: string, fields: object): Proposal {
  const kept = store.table('items').state().rows.get(id);
  if (kept === undefined) throw new Error(`no ${id}`);
  return put('items', { ...kept, ...fields });
}

/** After each step of two rounds, and from there on after each round: to look takes longer than the step. */
const looked = (done: number): boolean => done <= 16 || done % 8 === 0;

/** 104 steps back and forth: adding, editing, many at once, importing, removing, in turn. The state after each that is looked at. */
async function work(store: Store, name: string): Promise<Map<number, Record<string, string>>> {
  await rowsOf(store, 'items');
  const states = new Map([[0, await contentDigests(name)]]);
  let done = 0;
  const keep = async (title: string, ...proposals: Proposal[]): Promise<void> => {
    await store.commit(act(title, ...proposals));
    done += 1;
    if (looked(done)) states.set(done, await contentDigests(name));
  };
  for (let round = 1; round <= 13; round += 1) {
    const id = `A-${round}`;
    await keep(`Add ${id}`, put('items', fastener(id, 'crew')));
    await keep(`Edit ${id}`, changed(store, id, { notes: `first ${round}` }));
    await keep(`Edit ${id} again`, changed(store, id, { notes: `second ${round}`, retired: true }));
    const all = [...store.table('items').state().rows.keys()];
    await keep('Edit them all', ...all.map((one) => changed(store, one, { keptAt: `drawer ${round}` })));
    const imported = Array.from({ length: 20 }, (_, at) =>
      put('items', fastener(`I-${round}-${at}`, `shelf-${round}`)),
    );
    await keep('Import', put('shelves', shelf(`shelf-${round}`)), ...imported);
    await keep(
      'Add a task',
      put('tasks', task(`job-${round}`, ['crew'])),
      put('outings', outing(`out-${round}`, `job-${round}`, 'one')),
      put('steps', step(`step-${round}`, `job-${round}`, { fastener: id, count: 1 })),
    );
    await keep(
      'Remove the half',
      ...Array.from({ length: 10 }, (_, at) => remove('items', { id: `I-${round}-${at}`, rev: 1 })),
    );
    await keep(
      'Remove the task',
      remove('steps', { id: `step-${round}`, rev: 1 }),
      remove('outings', { id: `out-${round}`, rev: 1 }),
      remove('tasks', { id: `job-${round}`, rev: 1 }),
    );
  }
  return states;
}

describe('undo and redo', () => {
  it('go 104 steps back and 104 forth, with the same records wherever they are looked at', async () => {
    const journal = await keptJournal(0);
    const { store } = await openWindowOn(journal);
    const name = journal.database();
    const states = await work(store, name);
    expect(states.size).toBe(1 + 16 + 11);
    // What is compared below does differ, but for what a round ends with as it began.
    expect(new Set([...states.values()].map((state) => JSON.stringify(state))).size).toBeGreaterThan(22);
    for (let at = 103; at >= 0; at -= 1) {
      await store.undo();
      if (looked(at)) expect([at, await contentDigests(name)]).toEqual([at, states.get(at)]);
    }
    expect(store.history().undo).toMatchObject({ title: 'Add a shelf' });
    for (let at = 1; at <= 104; at += 1) {
      await store.redo();
      if (looked(at)) expect([at, await contentDigests(name)]).toEqual([at, states.get(at)]);
    }
    expect(store.history().redo).toBeNull();
    // What the screens show is that, too.
    const shown = [...store.table('items').state().rows.values()];
    expect(shown).toHaveLength((await digestsIn(name)).items.count);
    store.close();
  });

  it('go on where they were after the window is opened again', async () => {
    const journal = await keptJournal(2);
    const first = await openWindowOn(journal);
    await first.store.undo();
    expect(first.store.history()).toMatchObject({ undo: { title: 'Add F-1' }, redo: { title: 'Add F-2' } });
    first.store.close();
    const second = await openWindowOn(journal);
    expect(second.store.history()).toMatchObject({ undo: { title: 'Add F-1' }, redo: { title: 'Add F-2' } });
    const redone = await second.store.redo();
    expect(redone).toMatchObject({ action: 'redo', title: 'Add F-2', of: 4 });
    expect((await rowsOf(second.store, 'items')).size).toBe(2);
    second.store.close();
  });

  it('end what could be done again with the next change, but not with one that cannot be undone', async () => {
    const journal = await keptJournal(1);
    const { store } = await openWindowOn(journal);
    await store.undo();
    await store.commit({ ...act('Look', put('shelves', { ...shelf('crew', 'seen'), rev: 1 })), undoable: false });
    expect(store.history()).toMatchObject({ undo: { title: 'Add a shelf' }, redo: { title: 'Add F-1' } });
    await store.commit(act('Add F-2', put('items', fastener('F-2', 'crew'))));
    expect(store.history()).toMatchObject({ undo: { title: 'Add F-2' }, redo: null });
    await expect(store.redo()).rejects.toThrow(RefusedError);
    store.close();
  });

  it('overwrite nothing that was changed since by another way', async () => {
    const journal = await keptJournal(1);
    const { store } = await openWindowOn(journal);
    await store.commit({
      ...act('Note', put('items', { ...fastener('F-1', 'crew'), rev: 1, notes: 'new' })),
      undoable: false,
    });
    const error: unknown = await store.undo().catch((reason: unknown) => reason);
    if (!(error instanceof ConflictError)) throw new Error(`no conflict: ${String(error)}`);
    expect(error.conflicts).toMatchObject([{ id: 'F-1', mine: null, kept: { notes: 'new' } }]);
    expect((await rowsOf(store, 'items')).get('F-1')).toMatchObject({ notes: 'new' });
    store.close();
  });

  it('take nothing away that others refer to since', async () => {
    const journal = await keptJournal(1);
    const { store } = await openWindowOn(journal);
    const use = act(
      'Use it',
      put('tasks', task('job', ['crew'])),
      put('outings', outing('one', 'job')),
      put('steps', step('s', 'job', { fastener: 'F-1', count: 1 })),
    );
    await store.commit({ ...use, undoable: false });
    await expect(store.undo()).rejects.toThrow(/item F-1.*step s refers/);
    store.close();
  });

  it('are refused in words where there is nothing', async () => {
    const journal = await keptJournal(0);
    const { store } = await openWindowOn(journal);
    await store.undo();
    await expect(store.undo()).rejects.toThrow('There is nothing to undo.');
    expect(store.saving().kind).toBe('saved');
    store.close();
  });

  it('never use a revision of a record twice', async () => {
    const journal = await keptJournal(1);
    const { store } = await openWindowOn(journal);
    for (let round = 0; round < 5; round += 1) {
      await store.undo();
      await store.redo();
    }
    const revs = journal.entries.flatMap(({ payload }) =>
      payload.changes.flatMap(({ id, after }) => (id === 'F-1' && after !== null ? [after['rev']] : [])),
    );
    expect(revs).toHaveLength(6);
    expect(new Set(revs).size).toBe(6);
    store.close();
  });
});

describe('the history that entries come to', () => {
  const head = (seq: number, action: string, of?: number, undoable = true): EntryHead => ({
    ...{ seq, utc: '2026-01-02T10:42:00.000Z', tzOffset: 0, user: '', action, title: `t${seq}`, key: `k${seq}` },
    ...{ undoable, clockWentBack: false, ...(of === undefined ? {} : { of }) },
  });

  it.each<[string, EntryHead[], number | null, number | null]>([
    ['nothing', [], null, null],
    ['one', [head(1, 'add')], 1, null],
    ['undone', [head(1, 'add'), head(2, 'undo', 1)], null, 2],
    ['done again', [head(1, 'add'), head(2, 'undo', 1), head(3, 'redo', 2)], 3, null],
    ['undone again', [head(1, 'add'), head(2, 'undo', 1), head(3, 'redo', 2), head(4, 'undo', 3)], null, 4],
    ['another after an undo', [head(1, 'add'), head(2, 'undo', 1), head(3, 'add')], 3, null],
    ['not undoable', [head(1, 'add'), head(2, 'adopt', undefined, false)], 1, null],
    ['an undo of what is older than the heads', [head(401, 'undo', 1), head(402, 'add')], 402, null],
  ])('is right: %s', (_what, heads, undo, redo) => {
    const history = historyOf(heads);
    expect([history.undo?.seq ?? null, history.redo?.seq ?? null]).toEqual([undo, redo]);
  });

  it('shows the newest first and no more than it should', () => {
    const heads = Array.from({ length: 500 }, (_, at) => head(at + 1, 'add'));
    const { recent } = historyOf(heads);
    expect([recent.length, recent[0]?.seq]).toEqual([recentMost, 500]);
  });

  it('flags a clock that went back', async () => {
    const times = ['2026-03-01T10:00:00Z', '2026-02-01T10:00:00Z', '2026-02-01T10:00:01Z'];
    let at = -1;
    const { memoryJournal } = await import('../support/memoryJournal.ts');
    const journal = memoryJournal({
      now: () => {
        at += 1;
        return new Date(times[at] ?? '2026-03-02T10:00:00Z');
      },
    });
    const { store } = await openWindowOn(journal);
    for (const id of ['a', 'b', 'c']) await store.commit(act(id, put('shelves', shelf(id))));
    expect(store.history().recent.map(({ clockWentBack }) => clockWentBack)).toEqual([false, true, false]);
    store.close();
  });
});

describe('the journal’s head', () => {
  it('is the last entry, whoever made it', async () => {
    const journal = await keptJournal(1);
    const { store } = await openWindowOn(journal);
    const before = await store.journalHead();
    await store.commit(act('Add a shelf', put('shelves', shelf('heads'))));
    const after = await store.journalHead();
    expect(after.seq).toBe(before.seq + 1);
    const { entries } = await journal.window().read({ from: after.seq });
    expect(after.hash).toBe(entries.at(-1)?.hash);
    expect(await store.verifyJournal()).toEqual({ head: after, fault: null });
    const [second] = journal.entries.splice(1, 1);
    expect((await store.verifyJournal()).fault).toEqual({ seq: 2, reason: 'entry 3 follows entry 1' });
    if (second !== undefined) journal.entries.splice(1, 0, { ...second, prevHash: 'f'.repeat(64) });
    expect((await store.verifyJournal()).fault?.reason).toBe('it does not follow the entry before it');
    store.close();
  });
});
