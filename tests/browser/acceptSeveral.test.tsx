/** Findings of several rows accepted at once by keyboard: one act, its own acceptance on each row, one undo. */
import { expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { smallPlan } from '../support/smallPlan.ts';
import { axeFaults } from './support/axe.ts';
import { rowsOf } from './support/keptStore.ts';
import { button, expectOneAct, field, openTask, row } from './support/openTask.tsx';

const tables = ['calloutLists', 'callouts'] as const;

it('takes what is open on the callouts chosen, and gives each its own acceptance', async () => {
  const { store } = await openTask({ ...smallPlan(), steps: [] }, '#/callouts');
  const csv = 'Id;Thread;torqueMin;torqueMax\nA;M10;50 N·m;45 N·m\nB;M10;51 N·m;45 N·m\nC;M10;52 N·m;45 N·m';
  await expect.element(button('Judge a file…')).toBeVisible();
  const input = document.querySelector<HTMLInputElement>('input[type=file]');
  if (input === null) throw new Error('no way to a file');
  await userEvent.upload(input, new File([csv], 'Flange.csv', { type: 'text/csv' }));
  await expect.element(row(/^C M10/)).toHaveTextContent('Nonconforming');
  await userEvent.click(button(/^Keep/));
  await expect.element(field('List of callouts')).toHaveTextContent('Flange');
  await expect.element(row(/^A M10/)).toHaveTextContent('Nonconforming');
  await userEvent.click(row(/^A M10/));
  await userEvent.keyboard('{Shift>}{ArrowDown}{/Shift}');
  await userEvent.click(button('Accept findings of 2…'));
  await userEvent.click(button(/^Accept \d+ findings$/));
  await expect.element(page.getByText('Reason is missing.')).toBeVisible();
  expect(await axeFaults()).toEqual([]);
  await userEvent.fill(field('Reason'), 'Waiver 12');
  await userEvent.fill(field('Your name'), 'S. Quill');
  const said = button(/^Accept \d+ findings$/).element().textContent;
  await expectOneAct(store, `${said} on 2 callouts`, tables, () => userEvent.click(button(/^Accept \d+ findings$/)));
  const accepted = [...(await rowsOf(store, 'callouts')).values()].map(({ cells, accepted: taken }) => [
    Object.values(cells)[0],
    (taken ?? []).some(({ reason, person }) => reason === 'Waiver 12' && person === 'S. Quill'),
  ]);
  expect(Object.fromEntries(accepted)).toEqual({ A: true, B: true, C: false });
});
