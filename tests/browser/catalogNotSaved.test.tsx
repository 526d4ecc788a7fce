import { describe, expect, it, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { Item } from '../../shared-types/records/item.ts';
import { ConflictError, NotSavedError } from '../../renderer/store/store.ts';
import type { Store } from '../../renderer/store/store.ts';
import { put, rowsOf } from './support/keptStore.ts';
import { openCatalog, socket } from './support/openCatalog.tsx';

const button = (name: string) => page.getByRole('button', { name, exact: true });
const save = () => userEvent.keyboard('{Control>}{Enter}{/Control}');
const takeInHand = (code: string) => userEvent.click(page.getByText(code, { exact: true }));
const heading = (name: string) => page.getByRole('heading', { name, exact: true });

async function itemsBy(store: Store): Promise<Map<string, Item>> {
  return new Map([...(await rowsOf(store, 'items')).values()].map((item) => [item.code, item]));
}

describe('what was not saved', () => {
  it('says why, keeps every entry, and is saved by trying again', async () => {
    const { store, journal } = await openCatalog({ items: [socket('S-1')] });
    await takeInHand('S-1');
    await userEvent.click(button('Edit'));
    await userEvent.fill(page.getByLabelText('Name, optional'), 'Kept through it all');
    journal.faults.refuseAppends = { code: 'disk', times: 1 };
    await save();
    await expect.element(page.getByRole('alert')).toHaveTextContent('NOT SAVED');
    await expect.element(page.getByLabelText('Name, optional')).toHaveValue('Kept through it all');
    expect((await itemsBy(store)).get('S-1')?.name).toBeUndefined();
    await save();
    await expect.poll(async () => (await itemsBy(store)).get('S-1')?.name).toBe('Kept through it all');
  });

  it('says so of a deed without a form', async () => {
    const { store } = await openCatalog({ items: [socket('S-1', { retired: true })] });
    vi.spyOn(store, 'commit').mockRejectedValueOnce(new NotSavedError('The disk is full.'));
    await userEvent.click(page.getByLabelText('Retired ones too'));
    await takeInHand('S-1');
    await userEvent.click(button('Bring back'));
    await expect.element(page.getByRole('alert')).toHaveTextContent('NOT SAVED: The disk is full.');
  });

  it.each([
    [false, 'Nothing of it is kept yet.'],
    [true, 'whether it is there is known once this page is loaded again'],
  ])('says what is known of it where whether it was written is in doubt: %s', async (inDoubt, says) => {
    const { store } = await openCatalog({ items: [socket('S-1')] });
    vi.spyOn(store, 'commit').mockRejectedValue(new NotSavedError('The program is gone.', { inDoubt }));
    await takeInHand('S-1');
    await userEvent.click(button('Edit'));
    await userEvent.fill(page.getByLabelText('Name, optional'), 'Another');
    await save();
    await expect.element(page.getByRole('alert')).toHaveTextContent(says);
    expect(page.getByRole('alert').element().textContent.includes('Nothing of it is kept yet.')).toBe(!inDoubt);
  });

  it('asks before another row takes the place of entries', async () => {
    await openCatalog({ items: [socket('S-1'), socket('S-2')] });
    await takeInHand('S-1');
    await userEvent.click(button('Edit'));
    await userEvent.fill(page.getByLabelText('Name, optional'), 'half typed');
    await takeInHand('S-2');
    await userEvent.click(button('Go on editing'));
    await expect.element(page.getByLabelText('Name, optional')).toHaveValue('half typed');
    await takeInHand('S-2');
    await userEvent.click(button('Leave without saving'));
    await expect.element(heading('S-2')).toBeInTheDocument();
  });

  it('shows both versions of what was changed meanwhile', async () => {
    const { store } = await openCatalog({ items: [socket('S-1')] });
    await takeInHand('S-1');
    await userEvent.click(button('Edit'));
    await userEvent.fill(page.getByLabelText('Effective length (with unit)'), '63.5 mm');
    const kept = (await itemsBy(store)).get('S-1');
    await store.commit({
      action: 'edit-item',
      title: 'Edit S-1',
      proposals: [put('items', { ...(kept as Item), length: '70 mm' } as Item)],
    });
    await save();
    const dialog = page.getByRole('dialog', { name: 'Changed meanwhile: nothing was saved' });
    await expect.element(dialog).toHaveTextContent('Effective length70 mm63.5 mm');
    expect(document.querySelectorAll('dialog tbody tr')).toHaveLength(1);
    expect((await itemsBy(store)).get('S-1')).toMatchObject({ length: '70 mm', rev: 2 });
    await userEvent.click(button('Put mine in its place'));
    await expect.poll(async () => (await itemsBy(store)).get('S-1')).toMatchObject({ length: '63.5 mm', rev: 3 });
  });

  it('says in words why an undo did not happen', async () => {
    const { store } = await openCatalog({ items: [socket('S-1')] });
    await takeInHand('S-1');
    await userEvent.click(button('Copy'));
    await save();
    await expect.element(button('Undo: Add S-2')).toBeInTheDocument();
    vi.spyOn(store, 'undo').mockRejectedValueOnce(new NotSavedError('Another window writes.'));
    await userEvent.click(button('Undo: Add S-2'));
    await expect.element(page.getByRole('alert')).toHaveTextContent('NOT SAVED: Another window writes.');
    vi.spyOn(store, 'undo').mockRejectedValueOnce(new ConflictError([]));
    await userEvent.click(button('Undo: Add S-2'));
    await expect.element(page.getByRole('alert')).toHaveTextContent('Not done: what it would change was changed');
    expect((await itemsBy(store)).has('S-2')).toBe(true);
  });
});
