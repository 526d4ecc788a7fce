import { expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { planFrom } from '../../renderer/engine/plan/readPlan.ts';
import { shownPlan } from './fixtures/plans.ts';
import { byCode, button, openTask } from './support/openTask.tsx';

const region = (name: string) => page.getByRole('region', { name, exact: true });

it('an item’s page says where it is, what was learned of it, and who changed what of it and when', async () => {
  const { store } = await openTask(planFrom(shownPlan()).source, '#/catalog');
  const item = [...(await byCode(store, 'items')).values()].find(({ code }) => code === 'F1');
  if (item?.kind !== 'fastener') throw new Error('no fastener');
  window.location.hash = `#/catalog/${item.shelf}/${item.id}`;
  await expect.element(region('Where it is')).toHaveTextContent('No place in the store is said');
  await store.commit({
    action: 'edit-item',
    title: 'Edit F1',
    proposals: [{ table: 'items', put: { ...item, keptAt: 'Shelf 4, tray C2', kit: 'both' } }],
  });
  await store.commit({
    action: 'add-watch-out',
    title: 'Add watch-out',
    proposals: [
      {
        table: 'watchOuts',
        put: {
          ...{ id: 'w', rev: 0, text: 'Its flange is rounded.' },
          ties: [{ to: 'item', shelf: item.shelf, code: 'F1', called: 'F1' }],
          learned: { in: 'return', on: '2026-11-20', person: 'A. Tester' },
        },
      },
    ],
  });
  await expect.element(region('Where it is')).toHaveTextContent('kept at Shelf 4, tray C2');
  await expect
    .element(region('Watch out'))
    .toHaveTextContent(/Its flange is rounded\. \(tied to item F1; return, 2026-11-20\)/);
  await userEvent.click(button('Show who changed it, and when'));
  const history = region('History');
  await expect.element(history).toHaveTextContent(/Edit F1 \d{4}-\d\d-\d\d \d\d:\d\d, by nobody named/);
  await expect.element(history).toHaveTextContent(/Kit: field kit → field and training kit/);
  await expect
    .element(history)
    .toHaveTextContent(/Place in the store: not said → Shelf 4, tray C2|Kept at.*Shelf 4, tray C2/);
  await expect.element(history).toHaveTextContent(/came to the shelf/);
  // Another code: what it is tied to follows.
  await userEvent.click(button('Edit'));
  await userEvent.fill(page.getByLabelText('Code', { exact: true }), 'F1-new');
  await userEvent.keyboard('{Control>}{Enter}{/Control}');
  await userEvent.click(button('Show who changed it, and when'));
  await expect.element(history).toHaveTextContent(/Rename F1 to F1-new/);
  expect((await byCode(store, 'watchOuts')).get('w')?.ties).toMatchObject([{ to: 'item', code: 'F1-new' }]);
  await expect.element(region('Watch out')).toHaveTextContent(/Its flange is rounded\./);
});
