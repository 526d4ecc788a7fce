import { expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { shownPlan } from './fixtures/plans.ts';
import { byCode, button, field, heading, openTask, save } from './support/openTask.tsx';

const listed = (name: RegExp) => page.getByRole('grid', { name: 'Watch-outs' }).getByRole('row', { name });
const before = () => page.getByRole('region', { name: 'Before this step' });

it('a watch-out written from a step is said there with where it comes from, and no more once it is retired with a reason', async () => {
  const { store } = await openTask(shownPlan(), '#/steps/tighten');
  await userEvent.click(button('Write a watch-out…'));
  await expect.element(heading('Write a watch-out')).toBeVisible();
  // It is tied to the step already; its words and a name are wanted.
  await expect.element(page.getByRole('button', { name: /^Take step tighten of/ })).toBeVisible();
  await save();
  await expect.element(heading('2 fields to mend')).toHaveFocus();
  await userEvent.fill(field('Watch-out'), 'The stud seizes on the last turn.');
  await userEvent.fill(field('By whom'), 'A. Tester');
  // An item beside it, found by its code.
  const more = page.getByRole('combobox', { name: 'One more interface, item or step, optional' });
  await userEvent.fill(more, 'item F1');
  await userEvent.keyboard('{Enter}');
  await expect.element(page.getByRole('button', { name: /^Take item F1 on/ })).toBeVisible();
  await save();
  await expect.element(page.getByText('The watch-out is saved.')).toBeInTheDocument();
  const [kept] = [...(await byCode(store, 'watchOuts')).values()];
  expect(kept).toMatchObject({
    ...{
      text: 'The stud seizes on the last turn.',
      learned: { in: 'task', words: 'step tighten', person: 'A. Tester' },
    },
    ties: [{ to: 'step' }, { to: 'item', code: 'F1' }],
  });
  await expect.element(listed(/^The stud seizes/)).toBeVisible();
  await expect.element(page.getByRole('region', { name: 'Said before' })).toHaveTextContent(/Tighten the cover/);
  window.location.hash = '#/steps/tighten';
  await expect.element(before()).toHaveTextContent(/The stud seizes on the last turn\. \(tied to step tighten of/);
  // The step that touches the same fastener says it too.
  window.location.hash = '#/steps/loosen';
  await expect.element(before()).toHaveTextContent(/The stud seizes on the last turn\. \(tied to item F1 on/);
  await userEvent.click(page.getByRole('link', { name: /^at work on a task step tighten/ }));
  await userEvent.click(button('Retire…'));
  await userEvent.click(button('Retire watch-out'));
  await expect.element(page.getByText('Reason is missing.')).toBeVisible();
  await userEvent.fill(field('Reason'), 'New stud with a coating');
  await userEvent.fill(field('Your name'), 'A. Tester');
  await userEvent.click(button('Retire watch-out'));
  await expect.element(page.getByText(/New stud with a coating \(A\. Tester/)).toBeVisible();
  await expect.element(page.getByText('No watch-out is as asked for.')).toBeVisible();
  window.location.hash = '#/steps/tighten';
  await expect.element(before()).not.toHaveTextContent(/The stud seizes/);
  await store.undo();
  await expect.element(before()).toHaveTextContent(/The stud seizes/);
});
