import { describe, expect, it } from 'vitest';
import { userEvent } from 'vitest/browser';
import { planOfTask } from '../../renderer/engine/records/planOfTask.ts';
import { planFile } from '../../renderer/features/import/planFile.ts';
import { planSchema } from '../../shared-types/plan.ts';
import type { Store } from '../../renderer/store/store.ts';
import { tableNames } from '../../shared-types/records/index.ts';
import { memoryJournal } from '../support/memoryJournal.ts';
import { asText, shownPlan } from './fixtures/plans.ts';
import { openWindowOn, put, rowsOf, shelf, task } from './support/keptStore.ts';
import { openImport } from './support/openBeginning.tsx';

const plan = asText(shownPlan());
const file = { name: 'cover.json', text: plan };

async function counts(store: Store): Promise<Record<string, number>> {
  const sizes = await Promise.all(tableNames.map(async (name) => [name, (await rowsOf(store, name)).size] as const));
  return Object.fromEntries(sizes);
}

async function keptPlan(store: Store) {
  const rows = async <T extends (typeof tableNames)[number]>(name: T) => [...(await rowsOf(store, name)).values()];
  const [first] = await rows('tasks');
  if (first === undefined) throw new Error('no task is kept');
  const [outings, steps, items, shelves] = [
    await rows('outings'),
    await rows('steps'),
    await rows('items'),
    await rows('shelves'),
  ];
  return planOfTask({ task: first, outings, steps, items, shelves, interfaces: [], sites: [] }).plan;
}

const write = /^Add 1 shelf, 9 items, 1 task, 1 outing and \d steps?$/;

describe('a plan file brought in', () => {
  it('is compared first, written in one act by the button that says so, and taken back whole', async () => {
    const { screen, store, journal, asked } = await openImport(file);
    await expect.element(screen.getByText('Nothing is written yet.', { exact: false })).toBeVisible();
    const before = await counts(store);
    expect(before['tasks']).toBe(0);
    const table = screen.getByRole('table', { name: 'What the file would change' });
    await expect.element(table.getByRole('row', { name: /^Catalog items 9 0 0 0$/ })).toBeVisible();
    await expect.element(table.getByRole('row', { name: /^Task 1 0 0 0$/ })).toBeVisible();

    await userEvent.fill(screen.getByRole('textbox', { name: 'Name of the shelf' }), 'Rock kit');
    await userEvent.click(screen.getByRole('button', { name: write }));
    await expect.element(screen.getByRole('heading', { name: /^Added 1 shelf, 9 items/ })).toHaveFocus();
    await expect.element(screen.getByText(/^Saved \d\d:\d\d$/)).toBeVisible();
    expect(journal.entries).toHaveLength(1);
    expect(await keptPlan(store)).toEqual(planSchema.parse(JSON.parse(plan)));
    expect([...(await rowsOf(store, 'shelves')).values()].map(({ name }) => name)).toEqual(['Rock kit']);

    await userEvent.click(screen.getByRole('button', { name: 'Open the task' }));
    const [kept] = (await rowsOf(store, 'tasks')).keys();
    expect(asked.opened).toEqual([kept]);

    await userEvent.click(screen.getByRole('button', { name: 'Undo “Bring in cover.json”' }));
    await expect.element(screen.getByText(/is undone: everything is as it was before/)).toBeVisible();
    expect(await counts(store)).toEqual(before);
  });

  it('is refused whole where it is faulty: every fault named, nothing written', async () => {
    const faulty = plan.replace('"1.25 in"', '"1.25"').replace('"42 lbf·ft"', '"42 kg"');
    const { screen, store, journal, asked } = await openImport({ name: 'bad.json', text: faulty });
    await expect.element(screen.getByRole('heading', { name: 'bad.json was not brought in: 2 faults' })).toHaveFocus();
    await expect.element(screen.getByText('catalog.sockets[0].length', { exact: true })).toBeVisible();
    await expect.element(screen.getByText('value "42 kg"')).toBeVisible();
    expect(screen.getByText(/^row \d+$/).elements()).toHaveLength(2);
    expect(screen.getByRole('button', { name: /^Add/ }).elements()).toHaveLength(0);
    expect(journal.entries).toHaveLength(0);
    expect((await counts(store))['items']).toBe(0);
    await userEvent.click(screen.getByRole('button', { name: 'Close this list' }));
    expect(asked.closed).toBe(1);
  });

  it('asks for the shelf’s name above and beside the field', async () => {
    const { screen, journal } = await openImport(file);
    await userEvent.clear(screen.getByRole('textbox', { name: 'Name of the shelf' }));
    await userEvent.click(screen.getByRole('button', { name: write }));
    await expect.element(screen.getByRole('heading', { name: '1 field to mend' })).toHaveFocus();
    expect(screen.getByText('Name of the shelf is blank').elements()).toHaveLength(2);
    expect(journal.entries).toHaveLength(0);
  });

  it('names fields that are not kept, and steps that are not finished', async () => {
    const odd = shownPlan();
    delete odd.steps[1]?.['callout'];
    const { screen, store } = await openImport({ name: 'odd.json', text: asText({ ...odd, colour: 'red' }) });
    await expect.element(screen.getByText('1 field of the file not known here, and not kept')).toBeVisible();
    await expect.element(screen.getByText('colour', { exact: true })).toBeVisible();
    await expect
      .element(screen.getByText(/steps\[1\]\.callout: is missing: a step that tightens has a callout/))
      .toBeVisible();
    await userEvent.click(screen.getByRole('button', { name: /^Add / }));
    await expect.element(screen.getByRole('button', { name: 'Open the task' })).toBeVisible();
    expect((await counts(store))['steps']).toBe(odd.steps.length);
  });

  it('stays unwritten where the disk does not take it, says so, and can be tried again', async () => {
    const { screen, store, journal } = await openImport(file);
    journal.faults.refuseAppends = { code: 'disk', times: 1 };
    await userEvent.click(screen.getByRole('button', { name: write }));
    await expect
      .element(screen.getByRole('alert'))
      .toHaveTextContent(/NOT SAVED.*Nothing of the file was written; the button tries again/);
    expect((await counts(store))['tasks']).toBe(0);
    await userEvent.click(screen.getByRole('button', { name: write }));
    await expect.element(screen.getByRole('button', { name: 'Open the task' })).toBeVisible();
    expect((await counts(store))['tasks']).toBe(1);
  });
});

describe('a plan file whose task is kept already', () => {
  async function broughtIn() {
    const opened = await openImport(file);
    await userEvent.click(opened.screen.getByRole('button', { name: write }));
    await expect.element(opened.screen.getByRole('button', { name: 'Open the task' })).toBeVisible();
    return opened;
  }

  it('has nothing to write where it is the same', async () => {
    const { screen, again } = await broughtIn();
    await again({ name: 'cover.json', text: `${plan} ` });
    await userEvent.click(screen.getByRole('radio', { name: /^into it/ }));
    await expect.element(screen.getByText(/Everything in the file is here already/)).toBeVisible();
    expect(screen.getByRole('button', { name: /^(?:Add|Change)/ }).elements()).toHaveLength(0);
  });

  it('goes beside it under another code unless it is told otherwise', async () => {
    const { screen, store, again } = await broughtIn();
    await again({ name: 'cover.json', text: `${plan} ` });
    await expect.element(screen.getByRole('radio', { name: 'beside it, as a new task T-1-2' })).toBeChecked();
    await userEvent.click(screen.getByRole('button', { name: write }));
    await expect.poll(async () => (await counts(store))['tasks']).toBe(2);
    const codes = [...(await rowsOf(store, 'tasks')).values()].map(({ code }) => code);
    expect(codes.toSorted()).toEqual(['T-1', 'T-1-2']);
  });

  it('shows what differs field by field, keeps what is here, and takes the file’s word only when told', async () => {
    const { screen, store, again } = await broughtIn();
    const changed = shownPlan();
    const [socket] = changed.catalog['sockets'] as { length: string }[];
    if (socket === undefined) throw new Error('no socket');
    socket.length = '3 in';
    const name = 'Loosen the old cover';
    changed.steps = changed.steps.map((step, index) => (index === 0 ? { ...step, name } : step));
    await again({ name: 'cover.json', text: asText(changed) });
    await userEvent.click(screen.getByRole('radio', { name: /^into it/ }));
    await expect.element(screen.getByRole('heading', { name: '2 entries that differ: here → file' })).toBeVisible();
    await expect.element(screen.getByText(/length: 1\.25 in → 3 in/)).toBeVisible();
    await expect.element(screen.getByText(/name: Loosen the cover → Loosen the old cover/)).toBeVisible();
    await expect.element(screen.getByText(/there is nothing to write/)).toBeVisible();
    await userEvent.click(screen.getByRole('radio', { name: 'take the file’s' }));
    await userEvent.click(screen.getByRole('button', { name: 'Change 1 item and 1 step' }));
    await expect.element(screen.getByRole('heading', { name: 'Changed 1 item and 1 step' })).toHaveFocus();
    const after = await keptPlan(store);
    expect(after.catalog.sockets.find(({ id }) => id === 'S-9/16')?.length).toBe('3 in');
    expect(after.steps[0]?.name).toBe(name);
    await userEvent.click(screen.getByRole('button', { name: /^Undo/ }));
    await expect.element(screen.getByText(/is undone/)).toBeVisible();
    expect(await keptPlan(store)).toEqual(planSchema.parse(JSON.parse(plan)));
  });

  it('can put its catalog onto a shelf that is kept', async () => {
    const journal = memoryJournal();
    const { store: first } = await openWindowOn(journal);
    const proposals = [put('shelves', shelf('crew', 'Crew kit')), put('tasks', task('other', ['crew']))];
    await first.commit({ action: 'add', title: 'Add', proposals });
    first.close();
    const { screen, store } = await openImport(file, journal);
    await userEvent.click(screen.getByRole('radio', { name: 'onto a kept shelf' }));
    await expect.element(screen.getByRole('combobox', { name: 'Shelf' })).toHaveTextContent('Crew kit');
    await userEvent.click(screen.getByRole('button', { name: /^Add 9 items, 1 task/ }));
    await expect.element(screen.getByRole('button', { name: 'Open the task' })).toBeVisible();
    expect([...(await rowsOf(store, 'items')).values()].every((item) => item.shelf === 'crew')).toBe(true);
    expect((await counts(store))['shelves']).toBe(1);
  });
});

describe('after it is written', () => {
  it('offers its undo only as long as it is the newest change', async () => {
    const { screen, store } = await openImport(file);
    await userEvent.click(screen.getByRole('button', { name: write }));
    await expect.element(screen.getByRole('button', { name: 'Undo “Bring in cover.json”' })).toBeVisible();
    await store.commit({ action: 'add', title: 'Add', proposals: [put('shelves', shelf('later'))] });
    await expect.element(screen.getByText('Other changes came after it: Undo takes those back first.')).toBeVisible();
    expect(screen.getByRole('button', { name: /^Undo/ }).elements()).toHaveLength(0);
  });
});

describe('a catalog without a task', () => {
  it('goes on a shelf, and there is no task to open', async () => {
    const { catalog } = shownPlan();
    const { screen, store } = await openImport({ name: 'stock.json', text: asText({ catalog }) });
    await expect.element(screen.getByText(/The file holds a catalog and no task/)).toBeVisible();
    await userEvent.click(screen.getByRole('button', { name: 'Add 1 shelf and 9 items' }));
    await expect.element(screen.getByRole('heading', { name: 'Added 1 shelf and 9 items' })).toHaveFocus();
    expect(screen.getByRole('button', { name: 'Open the task' }).elements()).toHaveLength(0);
    expect(await counts(store)).toMatchObject({ shelves: 1, items: 9, tasks: 0 });
  });
});

describe('a task saved as a plan file', () => {
  it('is the plan in lines, under a name that any folder takes', () => {
    const saved = planFile({ name: '../T:1.json', text: JSON.stringify(planSchema.parse(JSON.parse(plan))) });
    expect(saved.name).toBe('-T-1.json');
    expect(saved.mediaType).toBe('application/json');
    const text = new TextDecoder().decode(saved.bytes);
    expect(planSchema.parse(JSON.parse(text))).toEqual(planSchema.parse(JSON.parse(plan)));
    expect(text.split('\n').length).toBeGreaterThan(100);
  });
});
