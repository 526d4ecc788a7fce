import { describe, expect, it, vi } from 'vitest';
import { commands, page, userEvent } from 'vitest/browser';
import type { Preferences } from '../../renderer/store/preferences.ts';
import { shownPlan } from './fixtures/plans.ts';
import { button, field, heading, openTask, save } from './support/openTask.tsx';

vi.setConfig({ testTimeout: 180_000 });

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

describe.each<Preferences['scheme']>(['light', 'dark'])('in %s, axe knows no fault', (scheme) => {
  it('of steps, their form, its refusal, its list of codes, and what asks before a step goes', async () => {
    const { session, store, taskId } = await openTask(plan, '#/steps');
    session.prefer({ scheme });
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
    expect(await commands.axe()).toEqual([]);
    window.location.hash = '#/steps/open';
    await expect.element(heading('3 · open')).toBeVisible();
    expect(await commands.axe()).toEqual([]);
    await userEvent.click(button('Edit step'));
    await userEvent.click(button('Add gear'));
    await userEvent.click(button('Add a move'));
    await userEvent.fill(page.getByRole('combobox', { name: 'Fastener' }), '3/8');
    expect(await commands.axe()).toEqual([]);
    await userEvent.fill(field('Callout, from (with unit)'), '45');
    await save();
    await expect.element(page.getByRole('heading', { name: /to mend$/ })).toHaveFocus();
    expect(await commands.axe()).toEqual([]);
    await userEvent.keyboard('{Escape}');
    await userEvent.click(button('Leave without saving'));
    await userEvent.click(button('Remove…'));
    expect(await commands.axe()).toEqual([]);
  });

  it('of outings, their drawing, their form, and a refusal to remove one', async () => {
    const { session } = await openTask(plan, '#/outings');
    session.prefer({ scheme });
    await expect.element(heading('Strip')).toBeVisible();
    expect(await commands.axe()).toEqual([]);
    await userEvent.click(button('Remove…'));
    expect(await commands.axe()).toEqual([]);
    await userEvent.click(button('Keep it'));
    await userEvent.click(button('Edit outing'));
    expect(await commands.axe()).toEqual([]);
  });

  it('of sites without and with one, an access in section, and the forms', async () => {
    const { session, store } = await openTask(plan, '#/sites');
    session.prefer({ scheme });
    await expect.element(heading('No site is kept yet')).toBeVisible();
    expect(await commands.axe()).toEqual([]);
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
    expect(await commands.axe()).toEqual([]);
    window.location.hash = '#/sites/rock/b';
    await expect.element(page.getByRole('figure', { name: 'Access of interface B' })).toBeVisible();
    expect(await commands.axe()).toEqual([]);
    await userEvent.click(button('Edit interface'));
    expect(await commands.axe()).toEqual([]);
  });

  it('of the task’s facts and their form', async () => {
    const { session } = await openTask(plan, '#/front');
    session.prefer({ scheme });
    await userEvent.click(button('Edit facts'));
    expect(await commands.axe()).toEqual([]);
  });
});
