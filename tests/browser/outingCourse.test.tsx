import { expect, it, vi } from 'vitest';
import { userEvent } from 'vitest/browser';
import { shownPlan } from './fixtures/plans.ts';
import { button, byCode, expectOneAct, field, openTask, save } from './support/openTask.tsx';

vi.setConfig({ testTimeout: 90_000 });

const plan = {
  ...shownPlan(),
  outings: [{ id: 'O1', name: 'Strip', roles: ['Lead', 'Second'], bags: ['B-1'], minutesMax: 40, turnBack: 6 }],
};

it('keeps the way home of an outing', async () => {
  const { store } = await openTask(plan, '#/outings/O1');
  await userEvent.click(button('Edit outing'));
  await userEvent.fill(field('Way home (min), optional'), '12');
  await expectOneAct(store, 'Edit outing “Strip”', ['outings'], save);
  expect((await byCode(store, 'outings')).get('O1')).toMatchObject({ turnBack: 12 });
});
