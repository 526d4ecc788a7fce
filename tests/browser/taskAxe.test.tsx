import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { shownPlan } from './fixtures/plans.ts';
import { axeFaults } from './support/axe.ts';
import { button, field, heading, openTask, save } from './support/openTask.tsx';

const [loosen, , cap] = shownPlan().steps;
const plan = {
  ...shownPlan(),
  places: [{ id: 'rock', name: 'Landing rock' }],
  outings: [{ id: 'O1', name: 'Strip', roles: ['Lead', 'Second'], bags: ['B-1'], minutesMax: 20 }],
  steps: [
    { ...loosen, minutes: 10 },
    { ...cap, minutes: 30, moves: [{ id: 'C-1', quantity: 2, from: 'bag', to: 'rock' }] },
  ],
};

// Sheets and forms in dark and forced colours are looked at in the whole window, by tests/e2e/window.test.ts.
describe('axe knows no fault', () => {
  it('of steps, their form, its refusal, its list of codes, and what asks before a step goes', async () => {
    const { store, taskId } = await openTask(plan, '#/steps');
    await store.commit({
      action: 'add-step',
      title: 'Unfinished',
      proposals: [
        {
          table: 'steps',
          put: {
            ...{ id: store.newId(), rev: 0, task: taskId, position: 9e6, code: 'open', outing: 'O1', role: 'Lead' },
            ...{ action: 'tighten' as const, contingency: true, ifFails: { step: 'loosen', how: 'stuck' as const } },
          },
        },
      ],
    });
    await expect.element(page.getByText(/Not complete: needs a fastener/)).toBeVisible();
    expect(await axeFaults()).toEqual([]);
    window.location.hash = '#/steps/open';
    await expect.element(heading('3 · open')).toBeVisible();
    expect(await axeFaults()).toEqual([]);
    await userEvent.click(button('Edit step'));
    await userEvent.click(button('Add gear'));
    await userEvent.click(button('Add a move'));
    await userEvent.fill(page.getByRole('combobox', { name: 'Fastener' }), '3/8');
    expect(await axeFaults()).toEqual([]);
    await userEvent.fill(field('Callout, from (with unit)'), '45');
    await save();
    await expect.element(page.getByRole('heading', { name: /to mend$/ })).toHaveFocus();
    expect(await axeFaults()).toEqual([]);
    await userEvent.keyboard('{Escape}');
    await userEvent.click(button('Leave without saving'));
    await userEvent.click(button('Remove…'));
    expect(await axeFaults()).toEqual([]);
  });

  it('of outings, their drawing, their form, and a refusal to remove one', async () => {
    await openTask(plan, '#/outings');
    await expect.element(heading('Strip')).toBeVisible();
    expect(await axeFaults()).toEqual([]);
    await userEvent.click(button('Remove…'));
    expect(await axeFaults()).toEqual([]);
    await userEvent.click(button('Keep it'));
    await userEvent.click(button('Edit outing'));
    expect(await axeFaults()).toEqual([]);
  });

  it('of sites without and with one, an access in section, and the forms', async () => {
    const { store } = await openTask(plan, '#/sites');
    await expect.element(heading('No site is kept yet')).toBeVisible();
    expect(await axeFaults()).toEqual([]);
    await store.commit({
      action: 'add-site',
      title: 'Site',
      proposals: [
        { table: 'sites', put: { id: 'rock', rev: 0, code: 'SRL' } },
        {
          table: 'interfaces',
          put: {
            ...{ id: 'b', rev: 0, site: 'rock', code: 'B', kind: 'fastener', count: 2, fastener: 'F1' },
            access: { depth: '2 in', clearDiameter: '1 in', swingDeg: 60, handleRadius: '8 in' },
            watchOuts: ['Wet.'],
          },
        },
      ],
    });
    await expect.element(heading('SRL')).toBeVisible();
    expect(await axeFaults()).toEqual([]);
    window.location.hash = '#/sites/rock/b';
    await expect.element(page.getByRole('figure', { name: 'Access of interface B' })).toBeVisible();
    expect(await axeFaults()).toEqual([]);
    await userEvent.click(button('Edit interface'));
    expect(await axeFaults()).toEqual([]);
  });

  it('of the task’s facts and their form', async () => {
    await openTask(plan, '#/front');
    await userEvent.click(button('Edit facts'));
    expect(await axeFaults()).toEqual([]);
  });
});
