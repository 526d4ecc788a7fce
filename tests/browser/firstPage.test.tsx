import { describe, expect, it } from 'vitest';
import { userEvent } from 'vitest/browser';
import { cautionLead, cautionText } from '../../renderer/engine/caution.ts';
import { faultsOf } from '../../renderer/engine/records/faultsOf.ts';
import { planSchema } from '../../shared-types/plan.ts';
import starterInch from '../../data/catalog/starter-inch.json';
import skuaRockLight from '../../data/demo/skua-rock-light.json';
import { memoryJournal } from '../support/memoryJournal.ts';
import type { MemoryJournal } from '../support/memoryJournal.ts';
import { callout, calloutList, openWindowOn, outing, put, rowsOf, shelf, step, task } from './support/keptStore.ts';
import { openFirstPage } from './support/openBeginning.tsx';

async function journalWithTasks(): Promise<MemoryJournal> {
  const journal = memoryJournal();
  const { store } = await openWindowOn(journal);
  await store.commit({
    action: 'add',
    title: 'Add a mast and a light',
    proposals: [
      put('shelves', shelf('crew', 'Crew kit')),
      put('tasks', task('t1', ['crew'], 'MAST')),
      put('tasks', task('t2', [], 'LIGHT')),
      put('outings', outing('o1', 't1')),
      put('steps', step('s1', 't1')),
      put('steps', step('s2', 't1')),
      put('steps', step('s3', 't2')),
    ],
  });
  store.close();
  return journal;
}

describe('the first page with nothing kept', () => {
  it('has a way in for everyone, the whole caution, where the data lies, and what saved means', async () => {
    const { screen, asked } = await openFirstPage();
    await expect
      .element(screen.getByRole('heading', { level: 1, name: 'What do you have in front of you?' }))
      .toBeVisible();
    await expect.element(screen.getByRole('button', { name: 'Begin a task…' })).toBeEnabled();
    await userEvent.click(screen.getByRole('button', { name: 'Bring a plan file in…' }));
    await userEvent.click(screen.getByRole('button', { name: 'Save its file…' }).first());
    expect(asked).toMatchObject({ filesAsked: ['asked'], saved: ['skua-rock-light'] });
    for (const name of [
      'inch: Starter catalog, inch',
      'metric: Starter catalog, metric',
      'carry gear: Starter carry gear and bags',
    ])
      await expect.element(screen.getByRole('button', { name: `Take ${name}` })).toBeEnabled();
    const caution = screen.getByRole('region', { name: 'Caution' });
    await expect.element(caution).toHaveTextContent(cautionLead);
    await expect.element(caution).toHaveTextContent(cautionText);
    await expect.element(screen.getByText('/home/kit/Bagwright')).toBeVisible();
    await expect.element(screen.getByText(/“Saved” means that it is on the disk twice/)).toBeVisible();
    await userEvent.fill(screen.getByRole('textbox', { name: /Your name/ }), 'A. N.');
    expect(asked.person.at(-1)).toBe('A. N.');
    expect(screen.getByRole('heading', { name: /kept task/ }).elements()).toHaveLength(0);
  });

  it('says so where the program has not named its folder', async () => {
    const { screen } = await openFirstPage({ folder: null });
    await expect.element(screen.getByText('a folder the program has not named yet')).toBeVisible();
  });

  it('begins a task with a shelf of its own, both named by the person', async () => {
    const { screen, store, journal, asked } = await openFirstPage();
    await userEvent.click(screen.getByRole('button', { name: 'Begin a task…' }));
    await userEvent.click(screen.getByRole('button', { name: 'Add task' }));
    await expect.element(screen.getByRole('heading', { name: '1 field to mend' })).toHaveFocus();
    await userEvent.fill(screen.getByRole('textbox', { name: 'Name', exact: true }), 'Change the pump');
    await userEvent.fill(screen.getByRole('textbox', { name: 'A new shelf for it, optional' }), 'Pump kit');
    await userEvent.click(screen.getByRole('button', { name: 'Add task' }));
    await expect.poll(() => asked.opened).toHaveLength(1);
    const [made] = (await rowsOf(store, 'tasks')).values();
    const [on] = (await rowsOf(store, 'shelves')).values();
    expect(made).toMatchObject({ name: 'Change the pump', code: 'T-1', shelves: [on?.id] });
    expect(on?.name).toBe('Pump kit');
    expect(asked.opened).toEqual([made?.id]);
    expect(journal.entries).toHaveLength(1);
  });

  it('puts a starter catalog on a shelf in one act, and leads there afterwards', async () => {
    const { screen, store, journal } = await openFirstPage();
    await userEvent.click(screen.getByRole('button', { name: /^Take inch/ }));
    const link = screen.getByRole('link', { name: 'Open Starter catalog, inch' });
    await expect.element(link).toBeVisible();
    const items = [...(await rowsOf(store, 'items')).values()];
    const { catalog } = planSchema.parse(starterInch);
    expect(items).toHaveLength(Object.values(catalog).flat().length);
    expect(items.flatMap((item) => faultsOf('items', item))).toEqual([]);
    expect(journal.entries).toHaveLength(1);
    const [on] = (await rowsOf(store, 'shelves')).values();
    await expect.element(link).toHaveAttribute('href', `#/catalog/${on?.id}`);
    expect(on?.notes).toContain('starter catalog');
    await store.undo();
    await expect.element(screen.getByRole('button', { name: /^Take inch/ })).toBeVisible();
    expect((await rowsOf(store, 'items')).size).toBe(0);
  });

  it('brings a worked example in as a task of its own', async () => {
    const { screen, store, asked } = await openFirstPage();
    await userEvent.click(screen.getByRole('button', { name: 'Bring in Skua Rock light…' }));
    await userEvent.click(
      screen.getByRole('button', { name: /^Add 1 shelf, 65 items, 1 task, 2 outings and 24 steps$/ }),
    );
    await userEvent.click(screen.getByRole('button', { name: 'Open the task' }));
    const [made] = (await rowsOf(store, 'tasks')).values();
    expect(asked.opened).toEqual([made?.id]);
    expect(made?.about).toBe(skuaRockLight.task.about);
    await expect.element(screen.getByRole('heading', { name: '1 kept task' })).toBeVisible();
  });
});

describe('the kept tasks', () => {
  it('stand with what they draw on and how much they hold, and open by their name', async () => {
    const { screen, asked } = await openFirstPage({ journal: await journalWithTasks() });
    await expect.element(screen.getByRole('heading', { name: '2 kept tasks' })).toBeVisible();
    await expect.element(screen.getByRole('row', { name: /^Task MAST MAST Crew kit 1 2 not yet/ })).toBeVisible();
    await expect.element(screen.getByRole('row', { name: /^Task LIGHT LIGHT no shelf 0 1 not yet/ })).toBeVisible();
    await expect
      .element(screen.getByText(/^Last change: Add a mast and a light, \d{4}-\d\d-\d\d \d\d:\d\d/))
      .toBeVisible();
    await userEvent.click(screen.getByRole('button', { name: 'Task MAST', exact: true }));
    expect(asked.opened).toEqual(['t1']);
  });

  it('say what was done last, and of what was undone and done again that it was', async () => {
    const { screen, store } = await openFirstPage({ journal: await journalWithTasks() });
    const last = (said: string) => screen.getByText(new RegExp(`^Last change: ${said}, \\d{4}-`));
    const [mast] = (await rowsOf(store, 'tasks')).values();
    if (mast === undefined) throw new Error('no task');
    const proposals = [put('tasks', { ...mast, name: 'Mast, new name' })];
    await store.commit({ action: 'edit', title: 'Edit the mast', proposals });
    await expect.element(last('Edit the mast')).toBeVisible();
    await store.undo();
    await expect.element(last('Undone: Edit the mast')).toBeVisible();
    await store.redo();
    await expect.element(last('Done again: Edit the mast')).toBeVisible();
    // What cannot be undone is a change like any other; a setting is none.
    await store.commit({
      ...{ action: 'restore', title: 'Restore all of it', undoable: false },
      proposals: [put('shelves', shelf('more'))],
    });
    await expect.element(last('Restore all of it')).toBeVisible();
    await store.commit({
      ...{ action: 'prefer', title: 'Settings', undoable: false },
      proposals: [put('shelves', shelf('again'))],
    });
    await expect.poll(() => store.history().recent[0]?.title).toBe('Settings');
    await expect.element(last('Restore all of it')).toBeVisible();
  });

  it('go with their outings and steps once it is asked, and come back whole', async () => {
    const { screen, store } = await openFirstPage({ journal: await journalWithTasks() });
    const proposals = [
      put('calloutLists', calloutList('list', 't1')),
      ...['C-1', 'C-2'].map((id) => put('callouts', callout(id, 'list', { id }))),
      put('asRunLists', { ...calloutList('run', 't1'), callouts: 'list' }),
      put('asRuns', callout('r', 'run', { callout: 'C-1' })),
    ];
    await store.commit({ action: 'add', title: 'Add lists', proposals });
    await userEvent.click(screen.getByRole('button', { name: 'Remove task MAST…' }));
    const question = screen.getByRole('dialog', { name: 'Remove task MAST?' });
    await expect
      .element(question)
      .toHaveTextContent('Task MAST goes, with its 1 outing, 2 steps, 2 callouts and 1 as-run record.');
    await expect.element(question).toHaveTextContent('What it draws on stays: Crew kit.');
    await expect.element(question).toHaveTextContent('Undo brings it back.');
    await userEvent.click(screen.getByRole('button', { name: 'Keep it' }));
    expect((await rowsOf(store, 'tasks')).size).toBe(2);
    await userEvent.click(screen.getByRole('button', { name: 'Remove task MAST…' }));
    await userEvent.click(screen.getByRole('button', { name: 'Remove task MAST', exact: true }));
    await expect.element(screen.getByRole('heading', { name: '1 kept task' })).toBeVisible();
    expect([...(await rowsOf(store, 'steps')).keys()]).toEqual(['s3']);
    expect((await rowsOf(store, 'outings')).size).toBe(0);
    expect((await rowsOf(store, 'shelves')).size).toBe(1);
    for (const table of ['calloutLists', 'callouts', 'asRunLists', 'asRuns'] as const)
      expect((await rowsOf(store, table)).size).toBe(0);
    await store.undo();
    await expect.element(screen.getByRole('heading', { name: '2 kept tasks' })).toBeVisible();
    expect((await rowsOf(store, 'callouts')).size).toBe(2);
    expect((await rowsOf(store, 'steps')).size).toBe(3);
  });

  it('stay where the disk does not take the change, which is said', async () => {
    const { screen, store, journal } = await openFirstPage({ journal: await journalWithTasks() });
    journal.faults.refuseAppends = { code: 'disk', times: 1 };
    await userEvent.click(screen.getByRole('button', { name: 'Remove task MAST…' }));
    await userEvent.click(screen.getByRole('button', { name: 'Remove task MAST', exact: true }));
    await expect
      .element(screen.getByRole('alert'))
      .toHaveTextContent(/Remove task MAST: .*Everything is as it was before/);
    expect((await rowsOf(store, 'tasks')).size).toBe(2);
    await userEvent.click(screen.getByRole('button', { name: 'Try again' }));
    await expect.element(screen.getByRole('heading', { name: '1 kept task' })).toBeVisible();
  });
});
