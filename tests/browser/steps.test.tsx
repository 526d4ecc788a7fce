import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { smallPlan } from '../support/smallPlan.ts';
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
  row,
  save,
  stepCodes,
} from './support/openTask.tsx';

const plan = { ...shownPlan(), places: [{ id: 'rock', name: 'Landing rock' }] };
const step = (text: string | RegExp) => userEvent.click(row(text));
const tables = ['steps'] as const;

describe('from an empty task', () => {
  it('forms alone lead to a step that is reached with the right stack', async () => {
    const { store } = await openStock();
    await userEvent.click(button('Begin a task…'));
    await userEvent.fill(field('Name'), 'Cover change');
    await userEvent.fill(field('Roles of the first outing, optional'), 'Lead, Second');
    await save();
    await expect.poll(async () => (await byCode(store, 'tasks')).get('T-1')?.name).toBe('Cover change');
    window.location.hash = '#/steps';
    await expect.element(heading('This task has no steps yet')).toBeVisible();
    await userEvent.click(button('Add the first step'));

    await userEvent.fill(field('Name, optional'), 'Tighten the cover');
    await userEvent.fill(page.getByRole('combobox', { name: 'Fastener' }), '3/8-24');
    await expect.element(page.getByRole('listbox', { name: 'Fastener: found' })).toHaveTextContent(/^F1 /);
    await userEvent.keyboard('{Enter}');
    await expect.element(page.getByRole('combobox', { name: 'Fastener' })).toHaveValue('F1');
    await userEvent.fill(field('Callout, from (with unit)'), '30 lbf·ft');
    await userEvent.fill(field('Callout, to (with unit)'), '35 lbf·ft');
    await userEvent.fill(field('Depth to the head, optional (with unit)'), '2 in');
    await userEvent.fill(field('Clear diameter, optional (with unit)'), '1 in');
    await userEvent.fill(field('Free swing (°), optional'), '60');
    await save();
    await expect.element(heading('1 · Tighten the cover')).toHaveFocus();
    // 1.25 in of socket alone does not reach 2 in; with the 3 in extension it does, and is lighter than with the 6 in one.
    await expect
      .element(page.getByText(/^Reached with/))
      .toHaveTextContent(/torque tool TT-2.*extension X-3.*socket S-9\/16 on.*F1/);
    await expect.element(row(/Tighten the cover/)).toHaveTextContent(/30–35 lbf·ft.*Reached/);
    expect((await byCode(store, 'steps')).get('s1')).toMatchObject({
      name: 'Tighten the cover',
      outing: '1',
      role: 'Lead',
      callout: { min: '30 lbf·ft', max: '35 lbf·ft' },
      access: { depth: '2 in', clearDiameter: '1 in', swingDeg: 60 },
    });
  });

  it('without an outing says that there must be one first', async () => {
    await openTask({ ...plan, steps: [], outings: [] }, '#/steps');
    await expect.element(page.getByRole('link', { name: 'Add an outing' })).toHaveAttribute('href', '#/outings');
    await expect.element(page.getByText(/The steps appear here, by outing/)).toBeVisible();
  });
});

describe('a step that is not complete', () => {
  it('is kept, says what it needs as a word and a shape, and is judged once that is there', async () => {
    const { store } = await openTask(plan, '#/steps/cap');
    await userEvent.click(button('Add step'));
    await userEvent.fill(field('Name, optional'), 'Torque the lid');
    await userEvent.fill(page.getByRole('combobox', { name: 'Fastener' }), 'F1');
    await save();
    const kept = row(/Torque the lid/);
    await expect.element(kept).toHaveTextContent(/Not complete: needs a callout/);
    expect(kept.element().querySelector('[data-state="not-complete"] svg')).not.toBeNull();
    await expect.element(page.getByText(/It needs a callout\./)).toBeVisible();
    await expect.element(page.getByText(/· 1 not complete/)).toBeVisible();
    expect((await byCode(store, 'steps')).get('cap-2')).toMatchObject({ outing: 'O1', role: 'Second', fastener: 'F1' });

    await userEvent.click(button('Edit step'));
    await userEvent.fill(field('Callout, from (with unit)'), '30 lbf·ft');
    await userEvent.fill(field('Callout, to (with unit)'), '35 lbf·ft');
    await save();
    await expect.element(kept).toHaveTextContent(/Reached/);
  });

  it('names each thing the planner lacks', async () => {
    const { store } = await openTask(plan, '#/steps/loosen');
    const needs = async (change: object, words: RegExp): Promise<void> => {
      const kept = (await byCode(store, 'steps')).get('loosen');
      if (kept === undefined) throw new Error('no step');
      const { demand: _demand, fastener: _fastener, runningIncluded: _included, ...rest } = kept;
      await store.commit({
        action: 'edit-step',
        title: 'Change',
        proposals: [{ table: 'steps', put: { ...rest, role: 'Lead', ...change } as typeof kept }],
      });
      await expect.element(row(/Loosen the cover/)).toHaveTextContent(words);
    };
    await needs({ fastener: 'F1' }, /Not complete: needs the torque to bear/);
    await needs({ demand: '42 lbf·ft' }, /Not complete: needs a fastener/);
    await needs({ demand: '42 lbf·ft', fastener: 'F9' }, /Not complete: no fastener has the code "F9"/);
    await needs({ demand: '42 lbf·ft', fastener: 'F1', role: 'Cook' }, /Not complete: .*no role "Cook"/);
    await needs({ demand: '42 lbf·ft', fastener: 'F1', runningIncluded: false }, /needs the running torque/);
    await needs({ demand: '42 lbf·ft', fastener: 'F1' }, /Reached/);
  });
});

describe('adding many', () => {
  it('goes on with the next, which takes over outing, role and slot and nothing else', async () => {
    const { store } = await openTask(plan, '#/steps/cap');
    await userEvent.click(button('Add step'));
    await expect.element(field('Name, optional')).toHaveFocus();
    await userEvent.keyboard('Wipe the seat');
    await chooseIn('Action', 'By hand or with gear');
    await userEvent.fill(field('Slot, optional'), 'seat');
    await userEvent.fill(field('Time (min), optional'), '4');
    await userEvent.click(button('Add, and the next'));
    await expect.poll(() => stepCodes(store)).toContain('cap-2');
    await expect.element(field('Name, optional')).toHaveValue('');
    await expect.element(field('Name, optional')).toHaveFocus();
    await expect.element(field('Role')).toHaveValue('Second');
    await expect.element(field('Slot, optional')).toHaveValue('seat');
    await expect.element(field('Time (min), optional')).toHaveValue('');
    await userEvent.keyboard('Look at the seat');
    await save();
    await expect.poll(() => stepCodes(store)).toEqual(['loosen', 'tighten', 'cap', 'cap-2', 'cap-3', 'deep']);
    await expect.element(heading('5 · Look at the seat')).toHaveFocus();
  });
});

describe('a form', () => {
  it('says on top and at the field what cannot be kept, and moves the focus', async () => {
    const { store } = await openTask(plan, '#/steps/tighten');
    await userEvent.click(button('Edit step'));
    await userEvent.fill(field('Callout, from (with unit)'), '45');
    await userEvent.fill(field('Code'), 'cap');
    await save();
    await expect.element(heading('2 fields to mend')).toHaveFocus();
    const said = page.getByRole('button', { name: /^Callout, from.*"45" has no unit/ });
    await expect.element(said).toBeVisible();
    await expect.element(page.getByRole('button', { name: /^Code: "cap" is another step’s/ })).toBeVisible();
    await userEvent.click(said);
    await expect.element(field('Callout, from (with unit)')).toHaveFocus();
    const described = field('Callout, from (with unit)').element().getAttribute('aria-describedby') ?? '';
    const words = described.split(' ').map((id) => document.getElementById(id)?.textContent ?? '');
    expect(words.join(' ')).toContain(said.element().textContent ?? 'nothing');
    expect((await byCode(store, 'steps')).get('tighten')?.callout?.min).toBe('30 lbf·ft');
  });

  it.each<[string, [string, string][], RegExp]>([
    ['a band of one end', [['Callout, to (with unit)', '']], /^Callout, to is missing/],
    ['a band upside down', [['Callout, from (with unit)', '60 N·m']], /^Callout, from.*above/],
    ['an access without its depth', [['Depth to the head, optional (with unit)', '']], /^Depth to the head is missing/],
    ['a length in a unit of torque', [['Clear diameter, optional (with unit)', '3 N·m']], /^Clear diameter.*N·m/],
    ['a swing past the circle', [['Free swing (°), optional', '400']], /^Free swing/],
    ['a time below nothing', [['Time (min), optional', '-1']], /^Time \(min\)/],
    ['a pass that is none', [['Passes, optional, one on each line', 'half']], /^Passes.*"half"/],
    ['no code', [['Code', '']], /^Code/],
  ])('refuses %s', async (_what, entries, words) => {
    const { store } = await openTask(plan, '#/steps/tighten');
    await userEvent.click(button('Edit step'));
    for (const [label, text] of entries) await userEvent.fill(field(label), text);
    const { length } = store.history().recent;
    await save();
    await expect.element(heading('1 field to mend')).toHaveFocus();
    await expect.element(page.getByRole('button', { name: words })).toBeVisible();
    expect(store.history().recent).toHaveLength(length);
  });

  it('asks before entries are lost, by Esc and by another row', async () => {
    await openTask(plan, '#/steps/tighten');
    await userEvent.click(button('Edit step'));
    await userEvent.fill(field('Name, optional'), 'Something else');
    await step(/Cap the lines/);
    await expect.element(page.getByRole('dialog', { name: 'Leave "Edit step 2"?' })).toBeVisible();
    await userEvent.click(button('Go on editing'));
    await expect.element(field('Name, optional')).toHaveValue('Something else');
    await userEvent.keyboard('{Escape}');
    await userEvent.click(button('Leave without saving'));
    await expect.element(heading('2 · Tighten the cover')).toHaveFocus();
    await userEvent.click(button('Edit step'));
    await step(/Cap the lines/);
    await expect.element(heading('3 · Cap the lines')).toBeVisible();
  });

  it('keeps every entry where it is NOT SAVED, says why, and saves the next time', async () => {
    const { store, journal } = await openTask(plan, '#/steps/tighten');
    await userEvent.click(button('Edit step'));
    await userEvent.fill(field('Name, optional'), 'Kept in spite');
    journal.faults.refuseAppends = { code: 'disk', times: 1 };
    await save();
    await expect.element(page.getByRole('alert')).toHaveTextContent(/NOT SAVED/);
    await expect.element(field('Name, optional')).toHaveValue('Kept in spite');
    expect((await byCode(store, 'steps')).get('tighten')?.name).toBe('Tighten the cover');
    await save();
    await expect.element(heading('2 · Kept in spite')).toBeVisible();
    expect((await byCode(store, 'steps')).get('tighten')?.name).toBe('Kept in spite');
  });

  it('shows both versions where the step was changed meanwhile, and writes over nothing that was not chosen', async () => {
    const { store } = await openTask(plan, '#/steps/tighten');
    const change = async (name: string): Promise<void> => {
      const kept = (await byCode(store, 'steps')).get('tighten');
      if (kept === undefined) throw new Error('no step');
      await store.commit({
        action: 'edit-step',
        title: 'Elsewhere',
        proposals: [{ table: 'steps', put: { ...kept, name } }],
      });
    };
    const named = async () => (await byCode(store, 'steps')).get('tighten')?.name;
    await userEvent.click(button('Edit step'));
    await change('Theirs');
    await userEvent.fill(field('Name, optional'), 'Mine');
    await save();
    const panel = page.getByRole('dialog', { name: 'Changed meanwhile: nothing was saved' });
    await expect.element(panel).toHaveTextContent(/Theirs.*Mine/);
    expect(await named()).toBe('Theirs');
    await userEvent.click(button('Put mine in its place'));
    await expect.element(heading('2 · Mine')).toBeVisible();
    expect(await named()).toBe('Mine');

    await userEvent.click(button('Edit step'));
    await change('Theirs again');
    await userEvent.fill(field('Name, optional'), 'Mine again');
    await save();
    await userEvent.click(button('Keep what is kept now'));
    await expect.element(heading('2 · Theirs again')).toBeVisible();
    expect(await named()).toBe('Theirs again');
  });
});

describe('the order of steps', () => {
  it('is changed by buttons and by keys, one act each, and the focus goes along', async () => {
    const { store } = await openTask(plan, '#/steps/loosen');
    await expectOneAct(store, 'Move step 1 down', tables, () => userEvent.click(button('Move down')));
    await expect.poll(() => stepCodes(store)).toEqual(['tighten', 'loosen', 'cap', 'deep']);
    await step(/Loosen the cover/);
    const inHand = (): Element | null => document.querySelector('[role=row][aria-selected=true]');
    await expect.poll(() => inHand()?.textContent).toContain('Loosen the cover');
    (inHand() as HTMLElement).focus();
    await userEvent.keyboard('{Alt>}{ArrowDown}{/Alt}');
    await expect.poll(() => stepCodes(store)).toEqual(['tighten', 'cap', 'loosen', 'deep']);
    await expect.poll(() => document.activeElement === inHand()).toBe(true);
    await userEvent.keyboard('{Alt>}{ArrowUp}{ArrowUp}{/Alt}');
    await expect.poll(() => stepCodes(store)).toEqual(['loosen', 'tighten', 'cap', 'deep']);
    await expect.element(button('Move up')).toHaveAttribute('aria-disabled', 'true');
    expect(store.history().undo?.title).toBe('Move step 2 up');
  });

  it('F2 and Enter edit, Delete asks, and Copy stands after the first', async () => {
    const { store } = await openTask(plan, '#/steps/cap');
    await expect.element(heading('3 · Cap the lines')).toBeVisible();
    for (const key of ['{F2}', '{Enter}']) {
      (document.querySelector('[role=row][aria-selected=true]') as HTMLElement).focus();
      await userEvent.keyboard(key);
      await expect.element(heading('Edit step 3')).toBeVisible();
      await userEvent.keyboard('{Escape}');
      await expect.element(heading('3 · Cap the lines')).toHaveFocus();
    }
    await expectOneAct(store, 'Copy step 3', tables, () => userEvent.click(button('Copy')));
    await expect.poll(() => stepCodes(store)).toEqual(['loosen', 'tighten', 'cap', 'cap-2', 'deep']);
    await step(/^3 /);
    (document.querySelector('[role=row][aria-selected=true]') as HTMLElement).focus();
    await userEvent.keyboard('{Delete}');
    await expect.element(page.getByRole('dialog', { name: 'Remove step 3?' })).toHaveTextContent(/Cap the lines goes/);
    await userEvent.click(button('Keep it'));
    expect(await stepCodes(store)).toContain('cap');
  });
});

describe('a step for when another fails', () => {
  it('stands under it with its word, goes where it goes, and goes when it goes', async () => {
    const { store } = await openTask(plan, '#/steps/tighten');
    await userEvent.click(button('Add step'));
    await userEvent.fill(field('Name, optional'), 'Back it off and chase');
    await chooseIn('Action', 'By hand or with gear');
    await chooseIn('When', 'Only if a step fails');
    await userEvent.fill(page.getByRole('combobox', { name: /^For step/ }), 'tighten the');
    await userEvent.keyboard('{Enter}');
    await chooseIn('When it is', 'cross-threaded');
    await expectOneAct(store, 'Add step “Back it off and chase”', tables, save);
    const under = row(/Back it off/);
    await expect.element(under).toHaveTextContent(/if cross-threaded: Back it off/);
    expect(under.element().querySelector('[data-depth="1"]')).not.toBeNull();
    expect((await byCode(store, 'steps')).get('tighten-2')).toMatchObject({
      contingency: true,
      ifFails: { step: 'tighten', how: 'cross-threaded' },
    });
    await step(/^2 Tighten the cover/);
    await userEvent.click(button('Move down'));
    await expect.poll(() => stepCodes(store)).toEqual(['loosen', 'cap', 'tighten', 'tighten-2', 'deep']);
    await userEvent.click(button('Remove…'));
    await expect.element(page.getByRole('dialog')).toHaveTextContent(/1 step done only if it fails: Back it off/);
    await expectOneAct(store, 'Remove step 3', tables, () => userEvent.click(button('Remove step 3')));
    expect(await stepCodes(store)).toEqual(['loosen', 'cap', 'deep']);
  });

  it('cannot be for itself, nor for one that is for it', async () => {
    await openTask(plan, '#/steps/cap');
    await userEvent.click(button('Edit step'));
    await chooseIn('When', 'Only if a step fails');
    await userEvent.fill(page.getByRole('combobox', { name: /^For step/ }), 'cap');
    await save();
    await expect.element(page.getByRole('button', { name: /^For step: "cap" is this step itself/ })).toBeVisible();
  });
});

describe('gear, moves and hold', () => {
  it('are lines of the form, taken out again, refused where they say half', async () => {
    const { store } = await openTask(plan, '#/steps/loosen');
    await userEvent.click(button('Edit step'));
    await userEvent.click(button('Add gear'));
    await userEvent.fill(page.getByRole('combobox', { name: 'Gear 1' }), 'C-1');
    await userEvent.fill(field('Gear 1, quantity'), '3');
    await userEvent.click(button('Add gear'));
    await userEvent.click(button('Add a move'));
    await userEvent.fill(page.getByRole('combobox', { name: 'Move 1, item' }), 'C-1');
    await chooseIn('Move 1, from', 'Landing rock');
    await save();
    await expect.element(page.getByRole('button', { name: /^Move 1, to is "rock", from where/ })).toBeVisible();
    await chooseIn('Move 1, from', 'the bag');
    await userEvent.click(page.getByText('Held against turning: nothing'));
    await userEvent.fill(page.getByRole('combobox', { name: 'Held fastener, optional' }), 'F1');
    await userEvent.fill(field('Hold: depth to the head, optional (with unit)'), '0 in');
    await expectOneAct(store, 'Edit step 1', tables, save);
    expect((await byCode(store, 'steps')).get('loosen')).toMatchObject({
      gear: [{ id: 'C-1', quantity: 3 }],
      moves: [{ id: 'C-1', quantity: 1, from: 'bag', to: 'rock' }],
      hold: { fastener: 'F1', access: { depth: '0 in' } },
    });
    await expect.element(page.getByText(/3 × gear C-1/)).toBeVisible();
    await expect.element(page.getByText(/from the bag to Landing rock/)).toBeVisible();
    await userEvent.click(button('Edit step'));
    await userEvent.click(button('Take out gear 1'));
    await save();
    await expect.poll(async () => (await byCode(store, 'steps')).get('loosen')?.gear).toBeUndefined();
  });
});

describe('the list', () => {
  it('has a state while nothing is there, and shows a step whose outing is gone', async () => {
    const { store } = await openTask({ ...smallPlan(), steps: [] }, '#/steps');
    await expect.element(heading('This task has no steps yet')).toBeVisible();
    await expect.element(row(/^Outing O1 · 0 steps$/)).toBeVisible();
    await store.commit({
      action: 'add-step',
      title: 'Add',
      proposals: [
        {
          table: 'steps',
          put: {
            ...{ id: store.newId(), rev: 0, task: [...store.table('tasks').state().rows.keys()][0] ?? '', position: 1 },
            ...{ code: 'lost', outing: 'gone', role: 'Lead', action: 'use' as const },
          },
        },
      ],
    });
    await expect.element(page.getByText(/No outing has the code “gone”/)).toBeVisible();
    await expect.element(row(/^1 lost/)).toHaveTextContent(/Not complete: no outing has the code "gone"/);
  });

  it('takes names of any kind as text', async () => {
    const names = ['<img src=x onerror=alert(1)>', 'Donaudampfschifffahrtselektrizitätenhauptbetriebswerk'.repeat(6)];
    const steps = names.map((name, at) => ({ ...shownPlan().steps[2], id: `n${at}`, name }));
    await openTask({ ...plan, steps }, '#/steps/n1');
    await expect.element(row(/<img src=x/)).toBeVisible();
    expect(document.querySelector('img[src=x]')).toBeNull();
    const pane = document.querySelector('.bw-pane-list') as HTMLElement;
    expect(pane.scrollWidth).toBeLessThanOrEqual(pane.clientWidth);
    await userEvent.click(button('Edit step'));
    await expect.element(field('Name, optional')).toHaveValue(names[1] ?? '');
  });
});

it('the finder adds a step from any sheet, and moves the one in hand', async () => {
  const { store } = await openTask(plan, '#/bag');
  const command = async (name: string): Promise<void> => {
    await userEvent.keyboard('{Control>}k{/Control}');
    await userEvent.fill(page.getByRole('combobox', { name: 'Find or do' }), name);
    await userEvent.keyboard('{Enter}');
  };
  await command('Add step');
  await expect.element(heading('Add a step')).toBeVisible();
  await userEvent.keyboard('{Escape}');
  await step(/Cap the lines/);
  await command('Move the step in hand up');
  await expect.poll(() => stepCodes(store)).toEqual(['loosen', 'cap', 'tighten', 'deep']);
});
