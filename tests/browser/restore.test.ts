/** Back to a snapshot: one act, undone as one, and never over what left and came back. */
import { describe, expect, it } from 'vitest';
import { restoring } from '../../renderer/store/recovery/restore.ts';
import type { Tables } from '../../renderer/store/recovery/restore.ts';
import type { Proposal } from '../../renderer/store/store.ts';
import type { AnyRecord, TableName } from '../../shared-types/records/index.ts';
import {
  contentDigests,
  discrepancy,
  fastener,
  frozen,
  keptJournal,
  openWindowOn,
  outing,
  put,
  remarks,
  remove,
  shelf,
  step,
  task,
} from './support/keptStore.ts';

const act = (...proposals: Proposal[]) => ({ action: 'edit', title: 'Edit', proposals });
const restore = (proposals: Proposal[]) => ({ action: 'restore', title: 'Restore', proposals });

const preferences = {
  id: 'preferences',
  rev: 0,
  units: 'si',
  scheme: 'dark',
  person: 'Q.',
  paper: 'A4',
  singleKeys: true,
  task: 'job',
} as const;

async function workedOn() {
  const journal = await keptJournal(5);
  const { store } = await openWindowOn(journal);
  await store.commit(
    act(put('tasks', task('job', ['crew'])), put('outings', outing('one', 'job')), put('steps', step('s', 'job'))),
  );
  const earlier: Tables = await store.readAll();
  const digests = await contentDigests(journal.database());
  return { journal, store, earlier, digests };
}

describe('restoring', () => {
  it('brings back what went, changes back what changed, takes away what came; and one undo takes it back', async () => {
    const { journal, store, earlier, digests } = await workedOn();
    await store.commit(
      act(
        remove('items', { id: 'F-1', rev: 1 }),
        put('items', { ...fastener('F-2', 'crew'), rev: 1, notes: 'Ständer ½ \u202E0' }),
        put('items', fastener('F-9', 'crew')),
        put('shelves', shelf('other')),
        remove('steps', { id: 's', rev: 1 }),
      ),
    );
    const since = await contentDigests(journal.database());
    const plan = await restoring(await store.readAll(), earlier);
    expect(plan.tables).toEqual(
      expect.arrayContaining([
        { table: 'items', comes: 1, changes: 1, goes: 1, stays: 3, kept: 0 },
        { table: 'shelves', comes: 0, changes: 0, goes: 1, stays: 1, kept: 0 },
        { table: 'steps', comes: 1, changes: 0, goes: 0, stays: 0, kept: 0 },
      ]),
    );
    await store.commit(restore(plan.proposals));
    expect(await contentDigests(journal.database())).toEqual(digests);
    expect((await restoring(await store.readAll(), earlier)).proposals).toEqual([]);
    await store.undo();
    expect(await contentDigests(journal.database())).toEqual(since);
    await store.redo();
    expect(await contentDigests(journal.database())).toEqual(digests);
    store.close();
  });

  it('takes no frozen manifest, no event, no discrepancy away, nor what they stand on; nor the settings', async () => {
    const { store, earlier } = await workedOn();
    const made = await frozen('r1', 'later');
    await store.commit(
      act(put('shelves', shelf('stood')), put('tasks', task('later', ['stood'])), put('revisions', made)),
    );
    await store.commit(act(...(await remarks(made, 2)).map((event) => put('events', event))));
    await store.commit(act(put('discrepancies', discrepancy('d1', 'later', 'r1'))));
    await store.commit(act(put('preferences', preferences)));
    const plan = await restoring(await store.readAll(), earlier);
    expect(plan.proposals).toEqual([]);
    const kept = Object.fromEntries(plan.tables.map((row) => [row.table, row.kept]));
    expect(kept).toMatchObject({ revisions: 1, events: 2, discrepancies: 1, tasks: 1, shelves: 1 });
    expect(plan.tables.map(({ table }) => table)).not.toContain('preferences');
    store.close();
  });

  it('fills an empty program with all of it, frozen manifests, their events and settings too', async () => {
    const { store, journal } = await workedOn();
    await store.commit(act(put('preferences', preferences)));
    const made = await frozen('r1', 'job');
    await store.commit(act(put('revisions', made)));
    await store.commit(act(...(await remarks(made, 3)).map((event) => put('events', event))));
    await store.commit(act(put('discrepancies', discrepancy('d1', 'job', 'r1'))));
    const wanted: Tables = await store.readAll();
    const digests = await contentDigests(journal.database());
    store.close();
    const empty = await keptJournal(0);
    const { store: other } = await openWindowOn(empty);
    const plan = await restoring(await other.readAll(), wanted);
    await other.commit(restore(plan.proposals));
    expect(await contentDigests(empty.database())).toEqual(digests);
    other.close();
  });

  it('takes no thing with a label away, nor its shelf, and leaves each its number; what cannot be undone says so', async () => {
    const { store, earlier } = await workedOn();
    await store.commit({
      ...act(
        put('shelves', shelf('since')),
        put('items', { ...fastener('L-1', 'since'), tag: 7 }),
        put('items', { ...fastener('F-2', 'crew'), rev: 1, tag: 8, notes: 'labelled' }),
      ),
      undoable: false,
    });
    const plan = await restoring(await store.readAll(), earlier);
    expect(plan.lasts).toBe(false);
    expect(plan.tables.find(({ table }) => table === 'items')).toMatchObject({ changes: 1, goes: 0, kept: 1 });
    await store.commit(restore(plan.proposals));
    const items = (await store.readAll()).get('items');
    expect(items?.get('L-1')).toMatchObject({ tag: 7, shelf: 'since' });
    expect(items?.get('F-2')).toMatchObject({ tag: 8 });
    expect(items?.get('F-2')).not.toHaveProperty('notes');
    await store.undo();
    expect((await store.readAll()).get('items')?.get('F-2')).toMatchObject({ notes: 'labelled', tag: 8 });
    const labelled: Tables = await store.readAll();
    store.close();
    const { store: other } = await openWindowOn(await keptJournal(0));
    expect((await restoring(await other.readAll(), labelled)).lasts).toBe(true);
    other.close();
  });

  it('is the same act whichever way the records lie', async () => {
    const one = { id: 'a', rev: 3, name: 'A' } as AnyRecord;
    const other = { name: 'A', rev: 9, id: 'a' } as AnyRecord;
    const tables = (record: AnyRecord): Tables =>
      new Map<TableName, Map<string, AnyRecord>>([['shelves', new Map([['a', record]])]]);
    expect((await restoring(tables(one), tables(other))).proposals).toEqual([]);
  });
});
