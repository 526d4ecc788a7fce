import { expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { smallPlan } from '../support/smallPlan.ts';
import { contentDigests, digestsIn } from './support/keptStore.ts';
import { button, openTask, stepCodes } from './support/openTask.tsx';

it('Ctrl Z and Ctrl Y walk back and forth over what was done on several sheets, the state the same by its hash', async () => {
  const { store, journal } = await openTask(smallPlan(), '#/steps/loosen');
  const hash = async (): Promise<string> => JSON.stringify(await contentDigests(journal.database()));
  const states: string[] = [];
  const reached = async (title: string): Promise<void> => {
    await expect.poll(() => store.history().undo?.title).toContain(title);
    states.push(await hash());
  };
  await expect.poll(() => stepCodes(store)).toEqual(['loosen', 'tighten', 'cap']);
  states.push(await hash());

  // Steps: one place down by its keys, and one away.
  await userEvent.click(page.getByRole('row', { name: /loosen/ }));
  await userEvent.keyboard('{Alt>}{ArrowDown}{/Alt}');
  await reached('Move');
  await userEvent.click(page.getByRole('row', { name: /cap/ }));
  await expect.element(page.getByRole('heading', { level: 1, name: /cap/ })).toBeVisible();
  await userEvent.click(button('Remove…'));
  await userEvent.click(button(/^Remove step/));
  await reached('Remove');
  // The catalog: many at once.
  await userEvent.keyboard('gc');
  await expect.element(page.getByRole('grid', { name: 'Items' })).toBeVisible();
  await userEvent.click(page.getByText('X-3', { exact: true }));
  document.querySelector<HTMLElement>('[role=row][tabindex="0"]')?.focus();
  await userEvent.keyboard('{Shift>}{ArrowDown}{/Shift}');
  await userEvent.click(button('Set another field…'));
  await userEvent.selectOptions(page.getByLabelText('Field', { exact: true }), 'Notes');
  await userEvent.fill(page.getByLabelText('New value'), 'looked over');
  await userEvent.click(button('Set “Notes” of 2 items'));
  await reached('Set “Notes”');

  const [begun, ...later] = states;
  document.querySelector<HTMLElement>('[role=row][tabindex="0"]')?.focus();
  for (const wanted of [...states].toReversed().slice(1)) {
    await userEvent.keyboard('{Control>}z{/Control}');
    await expect.poll(hash).toBe(wanted);
  }
  expect(await stepCodes(store)).toEqual(['loosen', 'tighten', 'cap']);
  expect(await hash()).toBe(begun);
  for (const wanted of later) {
    await userEvent.keyboard('{Control>}y{/Control}');
    await expect.poll(hash).toBe(wanted);
  }
  expect(new Set(states).size).toBe(4);
  expect((await digestsIn(journal.database())).steps.count).toBe(2);
});
