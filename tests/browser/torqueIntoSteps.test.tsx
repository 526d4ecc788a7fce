/** A callout's torque given to steps, and a callout or a row of the handbook taken in a step's form: before, after, one act, one undo. */
import { expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { smallPlan } from '../support/smallPlan.ts';
import { axeFaults } from './support/axe.ts';
import { callout, calloutList, put } from './support/keptStore.ts';
import { button, byCode, expectOneAct, field, heading, openTask, save } from './support/openTask.tsx';

async function open(address: string) {
  const plan = smallPlan();
  const [step] = plan.steps;
  const tighten = { ...step, action: 'tighten', callout: { min: '30 lbf·ft', max: '35 lbf·ft' } };
  const opened = await openTask(
    {
      ...plan,
      steps: [
        { ...tighten, id: 'first' },
        { ...tighten, id: 'second' },
        { ...step, id: 'third' },
      ],
    },
    address,
  );
  const { store, taskId } = opened;
  const cells = {
    ...{ id: 'C-7', thread: '3/8-24', torqueMin: '25 lbf·ft', torqueMax: '28 lbf·ft' },
    ...{ lubrication: 'clean dry', source: 'Drawing 7, note 3 (invented)' },
  };
  await store.commit({
    ...{ action: 'add', title: 'Add' },
    proposals: [
      put('calloutLists', { ...calloutList('list', taskId), name: 'Drawing 7', columns: Object.keys(cells) }),
      put('callouts', callout('key-7', 'list', cells)),
    ],
  });
  return opened;
}

it('goes from a callout into the steps chosen, and each of them says where its torque is from', async () => {
  const { store, session } = await open('#/callouts');
  await expect.element(heading('C-7')).toBeVisible();
  await userEvent.click(button('Steps take it…'));
  await expect.element(heading('Steps take callout C-7')).toBeVisible();
  const dialog = page.getByRole('dialog');
  await expect.element(dialog.getByText('2 of 2 tightening steps')).toBeVisible();
  await userEvent.click(button('Give it to the steps'));
  await expect.element(dialog.getByText('No step is chosen.')).toBeVisible();
  await expect.element(dialog.getByText('30–35 lbf·ft').first()).toBeVisible();
  expect(await axeFaults()).toEqual([]);
  await userEvent.fill(field('Find'), 'second');
  await expect.element(dialog.getByText('1 of 2 tightening steps')).toBeVisible();
  await userEvent.fill(field('Find'), '');
  await userEvent.click(button('Choose the 2 shown'));
  await expectOneAct(store, 'Take the torque of callout C-7 into 2 steps', ['steps'], () =>
    userEvent.click(button('Give it to 2 steps')),
  );
  const steps = await byCode(store, 'steps');
  for (const code of ['first', 'second'])
    expect(steps.get(code)).toMatchObject({
      callout: { min: '25 lbf·ft', max: '28 lbf·ft' },
      calloutSource: 'Drawing 7, note 3 (invented)',
      calloutFrom: { kind: 'callout', callout: 'key-7', id: 'C-7', condition: 'clean dry' },
    });
  expect(steps.get('third')).not.toHaveProperty('calloutFrom');
  await expect.element(page.getByText('2 steps took callout C-7.')).toBeVisible();
  const taken = page.getByRole('region', { name: 'Steps that took it' });
  await expect.element(taken).toHaveTextContent(/1 · .*as it is here.*2 · .*as it is here/);
  session.prefer({ scheme: 'dark' });
  await expect.poll(() => document.documentElement.dataset['mantineColorScheme']).toBe('dark');
  await userEvent.click(button('Steps take it…'));
  await expect.element(dialog.getByText('has it already').first()).toBeVisible();
  expect(await axeFaults()).toEqual([]);
  session.prefer({ scheme: 'light' });
  await userEvent.click(button('Leave the steps as they are'));

  await userEvent.click(taken.getByRole('link', { name: /^2 · / }));
  const origin = page.getByRole('region', { name: 'Where its torque was taken from' });
  await expect.element(origin).toHaveTextContent('Torque taken from callout C-7 of “Drawing 7”; both say the same.');
  expect(await axeFaults()).toEqual([]);
  // The callout changes; the step keeps what it took until it is told to take it anew.
  const now = { id: 'C-7', thread: '3/8-24', torqueMin: '26 lbf·ft', torqueMax: '28 lbf·ft', lubrication: 'clean dry' };
  await store.commit({
    ...{ action: 'edit', title: 'Edit' },
    proposals: [put('callouts', { ...callout('key-7', 'list', now), rev: 1 })],
  });
  await expect
    .element(origin)
    .toHaveTextContent(/says something else now:\s*torque 25–28 lbf·ft .* becomes 26–28 lbf·ft/);
  await expectOneAct(store, 'Take the torque of callout C-7 into step 2', ['steps'], () =>
    userEvent.click(button('Take it as it is now')),
  );
  expect((await byCode(store, 'steps')).get('second')?.callout?.min).toBe('26 lbf·ft');
  expect((await byCode(store, 'steps')).get('first')?.callout?.min).toBe('25 lbf·ft');
  await expect.element(origin).toHaveTextContent('both say the same');
});

it('is taken in the form of a step, from a callout and from the handbook, and forgotten again', async () => {
  const { store } = await open('#/steps/first');
  await userEvent.click(button('Edit step'));
  const seek = page.getByRole('combobox', { name: /^Take it from a callout or the handbook/ });
  await userEvent.fill(seek, 'C-7');
  await userEvent.keyboard('{Enter}');
  await expect.element(field('Callout, from (with unit)')).toHaveValue('25 lbf·ft');
  await expect.element(page.getByText('Taken from callout C-7: 25–28 lbf·ft, before 30–35 lbf·ft.')).toBeVisible();
  await userEvent.fill(seek, 'faa tension standard');
  await expect.element(page.getByRole('listbox').getByRole('option').first()).toHaveTextContent('Table 7-1');
  expect(await axeFaults()).toEqual([]);
  await userEvent.keyboard('{Enter}');
  await expect
    .element(field(/^Source of the callout/))
    .toHaveValue(
      'FAA AC 43.13-1B, Table 7-1, 3/8-24: 160 to 190 lbf·in; tension nut, standard: bolt in tension up to about 40,000 psi; clean, dry, cadmium-plated threads.',
    );
  await save();
  const origin = page.getByRole('region', { name: 'Where its torque was taken from' });
  await expect
    .element(origin.getByRole('link', { name: 'FAA AC 43.13-1B, Table 7-1, row 3/8-24' }))
    .toHaveAttribute('href', '#/handbook/torque-faa-ac-43.13-fine/3%2F8-24');
  expect((await byCode(store, 'steps')).get('first')).toMatchObject({
    callout: { min: '160 lbf·in', max: '190 lbf·in' },
    calloutFrom: { kind: 'handbook', table: 'torque-faa-ac-43.13-fine', row: '3/8-24' },
  });
  await userEvent.click(button('Edit step'));
  await userEvent.click(button('Forget where it is from'));
  await save();
  await expect.poll(async () => (await byCode(store, 'steps')).get('first')?.calloutFrom).toBeUndefined();
  await expect.element(button('Edit step')).toBeVisible();
  await expect.element(origin).not.toBeInTheDocument();
  // Judged as the callout it is, and named by its step: the other step asks for what no document prints.
  window.location.hash = '#/findings';
  const found = page.getByRole('row', { name: /2 · / });
  await expect.element(found).toHaveTextContent('lies outside the nearest published band');
  await userEvent.click(found);
  await expect.element(page.getByRole('link', { name: /^Open the step/ })).toHaveAttribute('href', '#/steps/second');
  expect(await axeFaults()).toEqual([]);
});
