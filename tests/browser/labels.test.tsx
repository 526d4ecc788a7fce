import { expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { shownPlan } from './fixtures/plans.ts';
import { axeFaults } from './support/axe.ts';
import { byCode, openTask } from './support/openTask.tsx';

it('things get their numbers once, in one act, and are printed only then', async () => {
  const { store } = await openTask(shownPlan(), '#/labels');
  const grid = page.getByRole('grid', { name: 'Things to label' });
  await expect.element(grid).toBeVisible();
  const before = [...(await byCode(store, 'items')).values()];
  expect(before.every(({ tag }) => tag === undefined)).toBe(true);
  // The row in hand alone, as long as none is chosen.
  await expect.element(page.getByRole('button', { name: 'Give 1 label number…' })).toBeVisible();
  await userEvent.click(page.getByRole('button', { name: 'Choose all shown' }));
  await userEvent.click(page.getByRole('button', { name: `Give ${before.length} label numbers…` }));
  await expect.element(page.getByRole('dialog')).toHaveTextContent('A number stays with its thing: it is not changed');
  expect(await axeFaults()).toEqual([]);
  await userEvent.click(page.getByRole('button', { name: `Give numbers 1 to ${before.length}` }));
  await expect.element(page.getByRole('heading', { name: /^\d+ labels?, / })).toBeVisible();
  const after = [...(await byCode(store, 'items')).values()];
  expect(after.map(({ tag }) => tag ?? 0).toSorted((a, b) => a - b)).toEqual(before.map((_, at) => at + 1));
  expect(store.history().undo?.title).toContain('abels');
  await expect.element(page.getByRole('button', { name: /^Give/ })).not.toBeInTheDocument();

  await userEvent.click(page.getByText('One by one', { exact: true }));
  await userEvent.fill(page.getByLabelText('Label width, mm'), '30');
  await expect.element(page.getByRole('alert')).toHaveTextContent('Not printed: the label is 30 mm wide');
  expect(await axeFaults()).toEqual([]);
  await userEvent.fill(page.getByLabelText('Label width, mm'), 'wide');
  await expect.element(page.getByRole('alert')).toHaveTextContent('how wide a label is, is a number of mm');
});
