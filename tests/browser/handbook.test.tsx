import { expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { smallPlan } from '../support/smallPlan.ts';
import { axeFaults } from './support/axe.ts';
import { openWindow } from './support/openWindow.tsx';

it('finds as one types, shows tables as printed and rows side by side, and hands a row on', async () => {
  localStorage.clear();
  const { session, store, bringIn } = await openWindow();
  window.location.hash = '#/handbook';
  const search = page.getByLabelText('Handbook', { exact: true });
  await expect.element(search).toBeInTheDocument();
  await userEvent.fill(search, 'NASM25027 0.250-20');
  await expect.element(page.getByText('1 table, 1 row')).toBeInTheDocument();

  // One row in hand, by the keyboard: its address stands in the window, so that a reload finds it.
  await userEvent.tab();
  await userEvent.tab();
  await userEvent.tab();
  await userEvent.keyboard('{Enter}');
  await expect.element(page.getByRole('heading', { level: 1, name: 'MIL-DTL-45916C, Table I' })).toBeInTheDocument();
  expect(window.location.hash).toBe('#/handbook/prevailing-mil-dtl-45916-coarse/0.250-20');
  const row = page.getByRole('region', { name: 'Row in hand' });
  await expect.element(row.getByText('30 (3.389)')).toBeInTheDocument();
  await expect.element(page.getByText('text found; confidence high')).toBeInTheDocument();
  expect(await axeFaults()).toEqual([]);

  // The printed units alone, where that is wanted.
  session.prefer({ units: 'as-written' });
  await expect.element(row.getByText('30', { exact: true })).toBeInTheDocument();
  session.prefer({ units: 'both', scheme: 'dark' });

  await userEvent.click(row.getByRole('button', { name: 'Copy as a callout' }));
  await expect.element(row.getByText(/^Copied as a line of callouts/)).toBeInTheDocument();

  await userEvent.click(row.getByRole('link', { name: 'All documents side by side for 1/4-20 UNC' }));
  await expect
    .element(page.getByRole('heading', { level: 1, name: '1/4-20 UNC in every document' }))
    .toBeInTheDocument();
  await expect.element(page.getByRole('img', { name: /^Torque bands for 1\/4-20 UNC/ })).toBeInTheDocument();
  expect(await axeFaults()).toEqual([]);
  await userEvent.fill(page.getByLabelText('Thread', { exact: true }), 'Q7');
  await userEvent.keyboard('{Enter}');
  await expect.element(page.getByText(/"Q7"/).first()).toBeInTheDocument();

  // Onto the bench with its values.
  const { id, task } = await bringIn(JSON.stringify(smallPlan()));
  window.location.hash = '#/handbook/torque-faa-ac-43.13-fine/1%2F4-28';
  await userEvent.click(page.getByRole('button', { name: `Add to the callouts of ${task.code}` }).first());
  await expect.element(page.getByText(/^Added as H-1 to/)).toBeInTheDocument();
  const [list] = store.table('calloutLists').state().rows.values();
  expect(list).toMatchObject({ task: id });
  expect([...store.table('callouts').state().rows.values()]).toMatchObject([
    { list: list?.id, cells: { id: 'H-1', thread: '1/4-28 UNF', torqueMin: '50 lbf·in', torqueMax: '70 lbf·in' } },
  ]);

  await userEvent.click(page.getByRole('link', { name: /^Torque and preload: tension nut, standard/ }));
  await expect.element(page.getByLabelText('Torque, least (with unit)')).toHaveValue('50 lbf·in');
  await expect.element(page.getByLabelText('Thread', { exact: true })).toHaveValue('1/4-28 UNF');

  window.location.hash = '#/handbook';
  await userEvent.fill(search, 'zirconium 4711');
  await expect.element(page.getByText(/^No published value/)).toBeInTheDocument();
});
