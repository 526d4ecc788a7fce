import { describe, expect, it } from 'vitest';
import { createStore } from '../../renderer/store/createStore.ts';
import { memoryJournal } from '../support/memoryJournal.ts';

describe('the store', () => {
  it('keeps a shelf, changes it, undoes and redoes', async () => {
    const journal = memoryJournal();
    const store = createStore({ journal: journal.window() });
    await store.open();
    expect(store.opening()).toEqual({ kind: 'ready', notice: null });
    const id = store.newId();
    await store.commit({
      action: 'add',
      title: 'Add',
      proposals: [{ table: 'shelves', put: { id, rev: 0, name: 'A' } }],
    });
    expect(store.saving().kind).toBe('saved');
    await store.commit({
      action: 'edit',
      title: 'Edit',
      proposals: [{ table: 'shelves', put: { id, rev: 1, name: 'B' } }],
    });
    await store.undo();
    await store.undo();
    await store.redo();
    expect(journal.entries.map(({ action }) => action)).toEqual(['add', 'edit', 'undo', 'undo', 'redo']);
    store.table('shelves').subscribe(() => undefined);
    await expect.poll(() => store.table('shelves').state().ready).toBe(true);
    expect(store.table('shelves').state().rows.get(id)).toMatchObject({ name: 'A', rev: 4 });
    store.close();
  });
});
