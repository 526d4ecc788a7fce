import { expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { shownPlan } from './fixtures/plans.ts';
import { byCode, chooseIn, heading, openTask } from './support/openTask.tsx';

it('field kit against training kit: what is missing, what differs, and which steps lose their stack', async () => {
  const { store } = await openTask(shownPlan(), '#/kits');
  await expect.element(heading('Kits compared')).toBeVisible();
  const items = [...(await byCode(store, 'items')).values()];
  const first = items.find(({ kind }) => kind === 'socket');
  if (first === undefined) throw new Error('no socket');
  // Everything is in both kits, but for the sockets; of the first there is a copy of another length in the training kit.
  await store.commit({
    action: 'edit-items',
    title: 'Kits',
    proposals: items.map((item) => ({
      table: 'items',
      put: { ...item, kit: item.kind === 'socket' ? 'field' : 'both' },
    })),
  });
  const shelf = first.shelf;
  window.location.hash = `#/kits/field%3A${shelf}/training%3A${shelf}`;
  await expect
    .element(page.getByText(/^Of 4 steps of T-1, from “\u2068Field kit of .*: 2 lose their stack or what they name/))
    .toBeVisible();
  const table = page.getByRole('region', { name: 'Steps with each kit' });
  await expect.element(table).toHaveTextContent(/Tighten the cover.*Loses its stack/);
  await expect.element(page.getByRole('region', { name: /^Only in Field kit/ })).toHaveTextContent(first.code);
  await expect.element(page.getByRole('region', { name: /^Only in Training kit/ })).toHaveTextContent('Nothing.');
  await userEvent.click(page.getByRole('checkbox', { name: 'Show the steps that stay the same too' }));
  await expect.element(table).toHaveTextContent(/Cap the lines.*The same.*By hand/);
  // The same shelf as a whole against itself under the task: nothing matters.
  const stock = `Stock of T-1, Cover change`;
  await chooseIn('The other kit', stock);
  await expect.element(page.getByText(/^No\. All 4 steps of T-1 have the same lightest stack/)).toBeVisible();
});
