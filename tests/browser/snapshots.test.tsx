/** Snapshots as a person uses them: made, looked at before they are restored, restored, undone; and the check of the database. */
import '../../renderer/styles/layers.css';
import '@mantine/core/styles.layer.css';
import { expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { cleanup } from 'vitest-browser-react';
import { readAll } from '../../renderer/store/copy/readAll.ts';
import { SnapshotsPlace } from '../../renderer/features/snapshots/SnapshotsPlace.tsx';
import { InWindow } from './support/InWindow.tsx';
import type { Store } from '../../renderer/store/store.ts';
import { WorkingCopy } from '../../renderer/store/copy/workingCopy.ts';
import type { FileToSave } from '../../shared-types/host.ts';
import { axeFaults } from './support/axe.ts';
import { cutOff, sideways, tooSmall } from './support/measures.ts';
import { contentDigests, fastener, keptJournal, openWindowOn, put, rawly, remove } from './support/keptStore.ts';
import { memorySnapshots } from './support/memorySnapshots.ts';
import { shown } from './shown.tsx';

async function openPlace(scheme: 'light' | 'dark' = 'light', items = 4) {
  const journal = await keptJournal(items);
  const { store } = await openWindowOn(journal);
  const snapshots = memorySnapshots(store);
  const saved: FileToSave[] = [];
  const files: { chosen: { name: string; text: string } | null } = { chosen: null };
  const around = {
    snapshots: snapshots.host,
    openText: async () => files.chosen,
    saveFile: async (file: FileToSave) => {
      saved.push(file);
      return true;
    },
  };
  await shown(
    <InWindow store={store}>
      <SnapshotsPlace host={around} />
    </InWindow>,
    { scheme },
  );
  return { journal, store, saved, files, ...snapshots };
}

const button = (name: string | RegExp) => page.getByRole('button', { name });
const act = (...proposals: Parameters<Store['commit']>[0]['proposals']) => ({
  action: 'edit',
  title: 'Edit',
  proposals,
});

it('one that is damaged is said to be, with why, and has nothing to press', async () => {
  const { store, kept, otherNames } = await openPlace();
  otherNames.push('2031-04-05 (copy).snapshot');
  await userEvent.click(button('Make a snapshot'));
  await userEvent.click(button('Make a snapshot'));
  await expect.element(page.getByRole('row', { name: /Asked for/ }).nth(1)).toBeVisible();
  const [first] = kept;
  if (first === undefined) throw new Error('none was made');
  first.damaged = [{ place: 'here', reason: 'its content is not what its sum says' }];
  await userEvent.click(button('Make a snapshot'));
  const row = page.getByRole('row', { name: /Damaged here its content is not what its sum says Cannot be restored/ });
  await expect.element(row).toBeVisible();
  expect(row.getByRole('button').elements()).toEqual([]);
  await expect
    .element(page.getByText(/^Not listed, because a snapshot has another name: 2031-04-05 \(copy\)\.snapshot/))
    .toBeVisible();
  // Each of the others says which it is, though all are of nearly the same moment.
  const names = button(/^Restore… that of 2031-04-05 \d\d:\d\d, up to entry 5, asked for$/).elements();
  expect(names).toHaveLength(2);
  await expect.poll(axeFaults).toEqual([]);
  expect([...tooSmall(), ...sideways(), ...cutOff()]).toEqual([]);
  store.close();
});

it('a snapshot is made, what a restore would change is shown first, and undo takes it back', async () => {
  const { store, kept } = await openPlace();
  await expect.element(page.getByText('There is none yet: make one, or go on working.')).toBeVisible();
  await expect.poll(axeFaults).toEqual([]);
  await userEvent.click(button('Make a snapshot'));
  await expect.element(page.getByRole('row', { name: /Asked for 5 20 kB Here/ })).toBeVisible();
  await store.commit(act(remove('items', { id: 'F-1', rev: 1 }), put('items', fastener('F-9', 'crew'))));
  await userEvent.click(button(/^Restore…/));
  const dialog = page.getByRole('dialog', { name: /^Restore what was kept on 2031-04-05/ });
  await expect.element(dialog.getByRole('row', { name: 'items 1 0 1 3' })).toBeVisible();
  await expect.poll(axeFaults).toEqual([]);
  expect([...tooSmall(), ...sideways(), ...cutOff()]).toEqual([]);
  // Looking is not doing.
  expect((await store.readAll()).get('items')?.has('F-9')).toBe(true);
  await userEvent.click(dialog.getByRole('button', { name: 'Restore 2 records' }));
  await expect.element(page.getByText(/^Restored as of 2031-04-05/)).toBeVisible();
  expect([...((await store.readAll()).get('items')?.keys() ?? [])]).toEqual(['F-1', 'F-2', 'F-3', 'F-4']);
  expect(kept.at(-1)?.page.head.why).toBe('before-restore');
  await userEvent.click(button(/^Undo: Restore 2031-04-05/));
  await expect.element(button(/^Redo: Restore 2031-04-05/)).toBeVisible();
  expect([...((await store.readAll()).get('items')?.keys() ?? [])]).toEqual(['F-2', 'F-3', 'F-4', 'F-9']);
  store.close();
});

it('where nothing would change it says so, and offers nothing', async () => {
  const { store } = await openPlace();
  await userEvent.click(button('Make a snapshot'));
  await userEvent.click(button(/^Restore…/));
  await expect.element(page.getByText(/nothing would change/)).toBeVisible();
  await expect.element(button(/^Restore \d/)).not.toBeInTheDocument();
  await userEvent.click(page.getByRole('dialog').getByRole('button', { name: 'Leave' }));
  store.close();
});

it('a snapshot that cannot be gone by is refused with its reason, and nothing is changed', async () => {
  const { store, host, journal } = await openPlace();
  await userEvent.click(button('Make a snapshot'));
  host.read = () => Promise.reject(new Error('x.snapshot cannot be gone by: its content is not what its sum says'));
  const entries = journal.entries.length;
  await userEvent.click(button(/^Restore…/));
  await expect.element(page.getByText(/its content is not what its sum says/)).toBeVisible();
  expect(journal.entries).toHaveLength(entries);
  store.close();
});

it.each([
  ['disk', 'Everything is as it was before.'],
  ['not-available', 'It broke off while it was written: whether it is there is known once this page is loaded again.'],
] as const)('a restore that is refused by %s says what is known of it', async (code, says) => {
  const { store, journal } = await openPlace();
  await userEvent.click(button('Make a snapshot'));
  await store.commit(act(remove('items', { id: 'F-1', rev: 1 })));
  await userEvent.click(button(/^Restore…/));
  journal.faults.refuseAppends = { code, times: 2 };
  await userEvent.click(button('Restore 1 record'));
  await expect.element(page.getByText(/^NOT SAVED|Not restored/).first()).toBeVisible();
  await expect.element(page.getByRole('dialog')).toHaveTextContent(says);
  store.close();
});

it('the check says that all is whole, and names what is not', async () => {
  const { store, journal } = await openPlace();
  await userEvent.click(button('Check the database'));
  await expect.element(page.getByText(/Whole 5 records, 5 entries/)).toBeVisible();
  // Behind the store's back, as damage comes: a record whose shelf is not there, and one that is gone.
  await rawly(journal.database(), ['items'], (of) => {
    of.objectStore('items').put({ ...fastener('F-2', 'nowhere'), rev: 1 });
    of.objectStore('items').delete('F-3');
  });
  const copy = new WorkingCopy(journal.database());
  await copy.open();
  expect((await readAll(copy)).get('items')?.size).toBe(3);
  copy.shut();
  await userEvent.click(button('Check the database'));
  await expect.element(page.getByText(/item F-2: shelf names nowhere, and shelves hold no such record/)).toBeVisible();
  await expect.poll(axeFaults).toEqual([]);
  store.close();
});

it('that nothing is cleared away is said with its numbers, until a person says that it was meant; the second folder is named', async () => {
  const { store, state } = await openPlace('dark');
  state.shrunk = { from: 900, to: 12, tables: ['items'] };
  state.second = { folder: '/stick', fault: 'ENOSPC' };
  await userEvent.click(button('Make a snapshot'));
  await expect.element(page.getByText(/Of 900 records there were 12 records left, and none of items/)).toBeVisible();
  await expect.element(page.getByText(/did not take the last one: ENOSPC/)).toBeVisible();
  await expect.poll(axeFaults).toEqual([]);
  await userEvent.click(button(/^It was meant/));
  await expect.element(page.getByText(/Of 900 records/)).not.toBeInTheDocument();
  await userEvent.click(button('Copy there no more'));
  await expect.element(page.getByText(/none: a stick or another disk/)).toBeVisible();
  await userEvent.click(button('Choose a folder…'));
  await expect.element(page.getByText(/From now on each snapshot is copied to \/stick too/)).toBeVisible();
  store.close();
});

const textOf = (file: FileToSave | undefined): { name: string; text: string } => {
  if (file === undefined) throw new Error('nothing was saved');
  return { name: file.name, text: new TextDecoder().decode(file.bytes) };
};

it('everything goes out of one program and into another: shown first, one act, and one undo', async () => {
  const first = await openPlace();
  await userEvent.click(button('Make a snapshot'));
  await userEvent.click(button(/^Save to a file…/));
  await expect.element(page.getByText(/^Handed over: .*_asked\.snapshot\.$/)).toBeVisible();
  await userEvent.click(button('Save everything to a file…'));
  await expect.element(page.getByText(/^Handed over: bagwright-everything-/)).toBeVisible();
  const [snapshot, everything] = first.saved.map(textOf);
  const wanted = await contentDigests(first.journal.database());
  first.store.close();
  for (const file of [snapshot, everything]) {
    await cleanup();
    const { store, files, kept, journal } = await openPlace('light', 2);
    await store.commit(
      act(remove('items', { id: 'F-1', rev: 1 }), put('items', { ...fastener('F-2', 'crew'), rev: 1, notes: 'ours' })),
    );
    files.chosen = file ?? null;
    await userEvent.click(button('Bring a file in…'));
    const dialog = page.getByRole('dialog', { name: `Bring in ${file?.name ?? ''}` });
    await expect.element(dialog.getByRole('row', { name: 'items 3 1 0 0' })).toBeVisible();
    await expect.element(dialog.getByRole('row', { name: 'shelves 0 0 1 0' })).toBeVisible();
    await userEvent.click(dialog.getByText('Which, and in which fields'));
    await expect.element(dialog.getByText('item F-2: notes')).toBeVisible();
    await expect.poll(axeFaults).toEqual([]);
    expect([...tooSmall(), ...sideways(), ...cutOff()]).toEqual([]);
    // Looking is not doing, and what is here stays unless it is chosen otherwise.
    expect((await store.readAll()).get('items')?.size).toBe(1);
    await expect.element(dialog.getByRole('button', { name: 'Bring in 3 records' })).toBeVisible();
    await userEvent.click(dialog.getByText('Take what the file says; settings and planned bags stay'));
    await userEvent.click(dialog.getByRole('button', { name: 'Bring in 4 records' }));
    await expect.element(page.getByText(/^Brought in 4 records of /)).toBeVisible();
    expect(await contentDigests(journal.database())).toEqual(wanted);
    expect(kept.at(-1)?.page.head.why).toBe('before-restore');
    await store.undo();
    expect((await store.readAll()).get('items')?.size).toBe(1);
    expect((await store.readAll()).get('items')?.get('F-2')).toMatchObject({ notes: 'ours' });
    store.close();
  }
});

it('a file that is not whole is refused with its reason, and nothing is written or made', async () => {
  const { store, saved, files, journal, kept } = await openPlace();
  await userEvent.click(button('Make a snapshot'));
  await userEvent.click(button(/^Save to a file…/));
  await expect.element(page.getByText(/^Handed over: /)).toBeVisible();
  const { text } = textOf(saved[0]);
  const [entries, made] = [journal.entries.length, kept.length];
  for (const [spoilt, reason] of [
    [text.replace('F-3', 'F-8'), /its content is not what its sum says/],
    [text.slice(0, 900), /its last line is not the sum of it/],
    ['{"bagwright":"something else"}', /neither a snapshot nor everything saved as one text/],
  ] as const) {
    files.chosen = { name: 'odd.snapshot', text: spoilt };
    await userEvent.click(button('Bring a file in…'));
    await expect.element(page.getByText(reason)).toBeVisible();
    await expect.poll(axeFaults).toEqual([]);
    await userEvent.click(
      page
        .getByRole('dialog')
        .getByRole('button', { name: /^(?:Close|Leave)/ })
        .first(),
    );
  }
  expect([journal.entries.length, kept.length]).toEqual([entries, made]);
  store.close();
});
