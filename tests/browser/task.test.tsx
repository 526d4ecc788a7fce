import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { editTask, rolesIn } from '../../renderer/features/task/taskActs.ts';
import { draftOfTask, taskOf } from '../../renderer/features/task/taskDraft.ts';
import { shownPlan } from './fixtures/plans.ts';
import {
  byCode,
  button,
  chooseIn,
  expectOneAct,
  field,
  heading,
  openStock,
  openTask,
  save,
} from './support/openTask.tsx';

const [loosen, , cap] = shownPlan().steps;
const plan = {
  ...shownPlan(),
  places: [
    { id: 'rock', name: 'Landing rock' },
    { id: 'boat', final: true },
  ],
  rangeShareMin: 0.2,
  steps: [loosen, { ...cap, moves: [{ id: 'C-1', quantity: 1, from: 'bag', to: 'rock' }] }],
};
const tables = ['tasks', 'steps', 'outings'] as const;

describe('a new task', () => {
  it('is kept with its shelf and its first outing in one act', async () => {
    const { store } = await openStock();
    await userEvent.click(button('Begin a task…'));
    await expect.element(field('Crew case')).toBeChecked();
    await userEvent.fill(field('Name'), 'Azimuth drive');
    await userEvent.fill(field('Site in words, optional'), 'Sea rock, invented');
    await userEvent.fill(field('Roles of the first outing, optional'), 'Lead, Second; Winch, Lead');
    await expectOneAct(store, 'Add task T-1', tables, save);
    const task = (await byCode(store, 'tasks')).get('T-1');
    expect(task).toMatchObject({ name: 'Azimuth drive', siteText: 'Sea rock, invented', places: [] });
    expect(task?.shelves).toHaveLength(1);
    expect((await byCode(store, 'outings')).get('1')).toMatchObject({
      task: task?.id,
      roles: ['Lead', 'Second', 'Winch'],
    });
  });

  it('needs a name, and says so on top and at the field', async () => {
    await openStock();
    await userEvent.click(button('Begin a task…'));
    await save();
    await expect.element(heading('1 field to mend')).toHaveFocus();
    await userEvent.click(page.getByRole('button', { name: /^Name/ }));
    await expect.element(field('Name')).toHaveFocus();
  });
});

describe('the facts of a task', () => {
  it('are shown, edited in place, and one act', async () => {
    const { store } = await openTask(plan, '#/front');
    await expect.element(page.getByText(/set at 20 % of their range or more/)).toBeVisible();
    await expect.element(page.getByText('Landing rock, boat (final)')).toBeVisible();
    await userEvent.click(button('Edit facts'));
    await userEvent.fill(field('Crew, optional'), 'two on the rope');
    await userEvent.fill(field('Least share of a torque tool’s range (%), optional'), '7');
    await expectOneAct(store, 'Edit task T-1', tables, save);
    expect((await byCode(store, 'tasks')).get('T-1')).toMatchObject({ crew: 'two on the rope', rangeShareMin: 0.07 });
    await expect.element(button('Edit facts')).toHaveFocus();
  });

  it('let moves follow a new id of a place, keep a place that is used, and refuse "bag"', async () => {
    const { store } = await openTask(plan, '#/front');
    await userEvent.click(button('Edit facts'));
    await expect
      .element(page.getByRole('button', { name: /^Take out place 1: 1 step of this task moves things there/ }))
      .toHaveAttribute('aria-disabled', 'true');
    await userEvent.fill(field('Place 1, id'), 'bag');
    await save();
    await expect.element(heading('1 field to mend')).toHaveFocus();
    await userEvent.fill(field('Place 1, id'), 'shelf');
    await userEvent.click(button('Take out place 2'));
    await expect.element(page.getByText('Moves follow the new ids of the places.')).toBeVisible();
    await expectOneAct(store, 'Edit task T-1', tables, save);
    expect((await byCode(store, 'tasks')).get('T-1')?.places).toEqual([{ id: 'shelf', name: 'Landing rock' }]);
    expect((await byCode(store, 'steps')).get('cap')?.moves).toEqual([
      { id: 'C-1', quantity: 1, from: 'bag', to: 'shelf' },
    ]);
  });

  it('take a kept site in place of its words', async () => {
    const { store } = await openTask(plan, '#/front');
    await store.commit({
      action: 'add-site',
      title: 'Add site',
      proposals: [{ table: 'sites', put: { id: 'rock', rev: 0, code: 'SRL', name: 'Sea rock light' } }],
    });
    await userEvent.click(button('Edit facts'));
    await expect.element(field('Site in words, optional')).toHaveValue('Test stand. Invented.');
    await chooseIn('Site, optional', 'SRL · Sea rock light');
    await save();
    await expect.poll(async () => (await byCode(store, 'tasks')).get('T-1')?.site).toBe('rock');
    expect((await byCode(store, 'tasks')).get('T-1')?.siteText).toBeUndefined();
  });

  it('keep what was typed where it is NOT SAVED', async () => {
    const { journal } = await openTask(plan, '#/front');
    await userEvent.click(button('Edit facts'));
    await userEvent.fill(field('Crew, optional'), 'three');
    journal.faults.refuseAppends = { code: 'disk', times: 1 };
    await save();
    await expect.element(page.getByRole('alert').first()).toHaveTextContent(/NOT SAVED/);
    await expect.element(field('Crew, optional')).toHaveValue('three');
  });
});

describe('between record and form', () => {
  const task = { id: 't', rev: 3, code: 'T', name: 'Task', shelves: [], places: [{ id: 'a', final: true }] };

  it('a task comes back as it was, whatever its share', () => {
    for (const rangeShareMin of [0, 0.07, 0.2, 1 / 3, 1])
      expect(taskOf(draftOfTask({ ...task, rangeShareMin }))).toEqual({
        ...task,
        rangeShareMin: expect.closeTo(rangeShareMin, 9),
      });
    expect(taskOf(draftOfTask(task))).toEqual(task);
  });

  it('a step without moves is not touched by a place’s new id', () => {
    const act = editTask(task, task, { steps: [], places: new Map([['a', 'b']]) });
    expect(act.proposals).toHaveLength(1);
    expect(rolesIn(' Lead ,, Second\nLead ')).toEqual(['Lead', 'Second']);
  });
});
