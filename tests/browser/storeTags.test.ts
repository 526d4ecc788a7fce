/** The number on a label is one thing's: given once, on every shelf, and taken back by an undo alone, while nobody has used it. */
import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../renderer/engine/errors.ts';
import type { Proposal, Store } from '../../renderer/store/store.ts';
import type { Item } from '../../shared-types/records/item.ts';
import { chained } from '../../renderer/engine/record/chain.ts';
import { tagText } from '../../renderer/engine/tag/index.ts';
import { giveLabelsAct } from '../../renderer/features/labels/giveLabels.ts';
import { sha256 } from '../../renderer/store/sha256.ts';
import {
  fastener,
  frozen,
  keptJournal,
  openWindowOn,
  put,
  rawDatabase,
  remove,
  rowsOf,
  shelf,
  task,
} from './support/keptStore.ts';

const act = (...proposals: Proposal[]) => ({ action: 'edit', title: 'Edit', proposals });

async function refusal(store: Store, ...proposals: Proposal[]) {
  const error: unknown = await store.commit(act(...proposals)).then(
    () => null,
    (reason: unknown) => reason,
  );
  if (!(error instanceof RefusedError)) throw new Error(`not refused: ${String(error)}`);
  return error.refusal;
}

const tagged = (id: string, of: string, rev: number, tag: number): Item => ({ ...fastener(id, of), rev, tag });

async function keptTags() {
  const journal = await keptJournal(3);
  const { store } = await openWindowOn(journal);
  await store.commit(
    act(
      put('shelves', shelf('depot')),
      put('items', fastener('D-1', 'depot')),
      put('items', tagged('F-1', 'crew', 1, 1)),
      put('items', tagged('F-2', 'crew', 1, 2)),
    ),
  );
  return { journal, store };
}

describe('a label number', () => {
  it('is refused where another thing has it, on whatever shelf, and twice in one act', async () => {
    const { store } = await keptTags();
    const taken = await refusal(store, put('items', tagged('D-1', 'depot', 1, 2)));
    expect(taken).toMatchObject({ code: 'duplicate-id', field: 'items.tag', value: 2 });
    const twice = await refusal(
      store,
      put('items', tagged('D-1', 'depot', 1, 7)),
      put('items', tagged('F-3', 'crew', 1, 7)),
    );
    expect(twice.rows?.length).toBe(2);
    await store.commit(act(put('items', tagged('D-1', 'depot', 1, 7))));
    store.close();
  });

  it('stays with its thing: not changed, not taken off, not swapped, and not removed with it', async () => {
    const { store } = await keptTags();
    expect(await refusal(store, put('items', tagged('F-1', 'crew', 2, 9)))).toMatchObject({ value: 9 });
    expect(await refusal(store, put('items', { ...fastener('F-1', 'crew'), rev: 2 }))).toMatchObject({ value: null });
    const swapped = [put('items', tagged('F-1', 'crew', 2, 2)), put('items', tagged('F-2', 'crew', 2, 1))];
    expect((await refusal(store, ...swapped)).rows?.length).toBe(2);
    expect((await refusal(store, remove('items', { id: 'F-1', rev: 2 }))).message).toContain('retire it instead');
    await store.commit(act(put('items', { ...tagged('F-1', 'crew', 2, 1), retired: true })));
    // What has none is removed as ever.
    await store.commit(act(remove('items', { id: 'F-3', rev: 1 })));
    store.close();
  });

  it('given in one act goes back in one undo and comes again, until it is frozen or a piece was counted by it', async () => {
    const journal = await keptJournal(3);
    const { store } = await openWindowOn(journal);
    const items = async (): Promise<Item[]> => [...(await rowsOf(store, 'items')).values()];
    const given = async (): Promise<(number | undefined)[]> => (await items()).map(({ tag }) => tag);
    const give = async (): Promise<void> =>
      void (await store.commit(giveLabelsAct(await items(), await items(), []).act));
    await store.commit(act(put('tasks', task('job', ['crew']))));
    await give();
    await store.undo();
    expect(new Set(await given())).toEqual(new Set([undefined]));
    await store.redo();
    expect((await given()).toSorted()).toEqual([1, 2, 3]);
    const revision = await frozen('r', 'job');
    const events = await chained(
      revision,
      null,
      [
        {
          ...{ id: 'e', at: '2026-11-26T08:00:00+01:00', by: { name: 'P.', role: 'packer' }, outing: 'one' },
          deed: {
            ...{ kind: 'counted', bag: 'L', item: 'F-2', pieces: 1, parts: 1 },
            label: tagText({ kind: 'item', tag: 2, piece: 1 }),
          },
        },
      ],
      sha256,
    );
    await store.commit({
      ...act(put('revisions', revision), ...events.map((event) => put('events', event))),
      undoable: false,
    });
    const refused: unknown = await store.undo().then(
      () => null,
      (reason: unknown) => reason,
    );
    expect(String(refused)).toMatch(/number 2 stays on its label: a piece was counted by it, event 1/);
    expect((await given()).toSorted()).toEqual([1, 2, 3]);
    store.close();
  });

  it('is found by an index of the database', async () => {
    const { journal, store } = await keptTags();
    store.close();
    const database = await rawDatabase(journal.database());
    const index = database.transaction('items').objectStore('items').index('tag');
    const found = await new Promise<unknown>((resolve) => {
      const request = index.get(2);
      request.onsuccess = () => resolve(request.result);
    });
    expect(found).toMatchObject({ id: 'F-2', tag: 2 });
    database.close();
  });
});
