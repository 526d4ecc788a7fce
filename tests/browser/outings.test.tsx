import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { shownPlan } from './fixtures/plans.ts';
import { byCode, button, expectOneAct, field, heading, openTask, row, save } from './support/openTask.tsx';

const [loosen, tighten, cap, deep] = shownPlan().steps;
const plan = {
  ...shownPlan(),
  places: [{ id: 'rock', name: 'Landing rock' }],
  outings: [
    { id: 'O1', name: 'Strip', roles: ['Lead', 'Second'], bags: ['B-1'], minutesMax: 40 },
    { id: 'O2', roles: ['Lead'], bags: [] },
  ],
  steps: [
    { ...loosen, minutes: 10, slot: 'a' },
    { ...tighten, minutes: 20 },
    { ...cap, minutes: 30, slot: 'a', moves: [{ id: 'C-1', quantity: 2, from: 'bag', to: 'rock' }] },
    { ...deep, outing: 'O2', minutes: 5 },
  ],
};
const tables = ['outings', 'steps'] as const;
const inHand = (): HTMLElement => {
  const found = document.querySelector<HTMLElement>('[role=grid][aria-label=Outings] [aria-selected=true]');
  if (found === null) throw new Error('no outing in hand');
  return found;
};
const boxes = (): DOMRect[] =>
  [...document.querySelectorAll('.bw-timeline-box')].map((box) => box.getBoundingClientRect());

describe('an outing', () => {
  it('is drawn by the clock, to scale: roles as lanes, a slot at once, the limit as a line', async () => {
    await openTask(plan, '#/outings/O1');
    await expect.element(heading('Strip')).toBeVisible();
    await expect.element(page.getByText(/3 steps · 60 min of work · 50 min out, at most 40 min/)).toBeVisible();
    await expect.poll(() => boxes().length).toBe(3);
    const [a, b, c] = boxes();
    if (a === undefined || b === undefined || c === undefined) throw new Error('three boxes');
    // In order of the course: loosen 0–10 beside cap 0–30 in the slot, then tighten 30–50.
    expect(b.width / a.width).toBeCloseTo(3, 1);
    expect(c.width / a.width).toBeCloseTo(2, 1);
    expect(b.left).toBeCloseTo(a.left, 0);
    expect(c.left).toBeCloseTo(b.right, 0);
    expect(b.top).toBeGreaterThan(a.bottom);
    expect(document.querySelectorAll('.bw-timeline-box[data-over]')).toHaveLength(1);
    await expect.element(page.getByText('limit 0:40')).toBeVisible();
    const table = page.getByRole('grid', { name: 'Course as a table' });
    await expect.element(table.getByRole('row', { name: /Cap the lines/ })).toHaveTextContent(/0:00–0:30/);
    await expect.element(table.getByRole('row', { name: /Tighten the cover/ })).toHaveTextContent(/0:30–0:50/);
  });

  it('says what is over time and what is left behind, with word and shape', async () => {
    await openTask(plan, '#/outings/O1');
    const problems = page.getByRole('region', { name: 'Problems' });
    await expect.element(problems).toHaveTextContent(/Over time.*10 min over/);
    await expect
      .element(problems)
      .toHaveTextContent(/Left behind.*2 × gear C-1 at Landing rock: put there by step 3, Cap the lines/);
    expect(problems.element().querySelectorAll('[data-state] svg')).toHaveLength(2);
    await expect.element(row(/^Strip/)).toHaveTextContent(/50 of 40.*Left behind/);
    await expect.element(row(/^Outing O2/)).toHaveTextContent(/no problem found/);
  });

  it('opens a step of its course by Enter', async () => {
    await openTask(plan, '#/outings/O1');
    const table = page.getByRole('grid', { name: 'Course as a table' });
    await userEvent.click(table.getByRole('row', { name: /Cap the lines/ }));
    await userEvent.keyboard('{Enter}');
    await expect.element(heading('3 · Cap the lines')).toBeVisible();
  });
});

describe('changing outings', () => {
  it('adds one with the roles of the last, a bag found by typing, and a limit', async () => {
    const { store } = await openTask(plan, '#/outings');
    await userEvent.click(button('Add outing'));
    await userEvent.fill(field('Name, optional'), 'Close up');
    await userEvent.fill(field('At most out (min), optional'), '90');
    await userEvent.click(button('Add a role'));
    await userEvent.fill(field('Role 2'), 'Winch');
    await userEvent.click(button('Add a bag'));
    await userEvent.fill(page.getByRole('combobox', { name: 'Bag 1' }), '4 kg');
    await userEvent.keyboard('{Enter}');
    await expectOneAct(store, 'Add outing “Close up”', tables, save);
    await expect.element(heading('Close up')).toBeVisible();
    expect((await byCode(store, 'outings')).get('1')).toMatchObject({
      ...{ name: 'Close up', roles: ['Lead', 'Winch'], bags: ['B-1'], minutesMax: 90 },
    });
  });

  it('lets its steps follow a new code and a new name of a role, in one act', async () => {
    const { store } = await openTask(plan, '#/outings/O1');
    await userEvent.click(button('Edit outing'));
    await userEvent.fill(field('Code'), 'strip');
    await userEvent.fill(field('Role 2'), 'Mate');
    await expect.element(page.getByText('3 steps follow the new name.')).toBeVisible();
    await expectOneAct(store, 'Edit outing “Strip”', tables, save);
    const steps = await byCode(store, 'steps');
    expect(steps.get('cap')).toMatchObject({ outing: 'strip', role: 'Mate' });
    expect(steps.get('loosen')).toMatchObject({ outing: 'strip', role: 'Lead' });
    expect(steps.get('deep')).toMatchObject({ outing: 'O2', role: 'Lead' });
  });

  it('keeps a role that has steps, and says which field is wrong', async () => {
    await openTask(plan, '#/outings/O1');
    await userEvent.click(button('Edit outing'));
    const takeOut = page.getByRole('button', { name: /^Take out role 2: does 1 step of this outing/ });
    await expect.element(takeOut).toHaveAttribute('aria-disabled', 'true');
    takeOut.element().dispatchEvent(new MouseEvent('click', { bubbles: true }));
    await expect.element(field('Role 2')).toHaveValue('Second');
    await userEvent.fill(field('Role 2'), 'Lead');
    await userEvent.fill(field('Code'), 'O2');
    await userEvent.fill(field('At most out (min), optional'), '0');
    await save();
    await expect.element(page.getByRole('heading', { name: /fields? to mend/ })).toHaveFocus();
    await userEvent.fill(field('At most out (min), optional'), '40');
    await save();
    await expect.element(heading('2 fields to mend')).toHaveFocus();
    await expect.element(button('Code: "O2" is another outing’s of this task: choose another one.')).toBeVisible();
    await expect.element(button('Role 2: "Lead" stands there twice.')).toBeVisible();
  });

  it('is not removed while steps go out on it, and says which', async () => {
    const { store } = await openTask(plan, '#/outings/O1');
    await userEvent.click(button('Remove…'));
    const dialog = page.getByRole('dialog', { name: 'Strip cannot be removed yet' });
    await expect.element(dialog).toHaveTextContent(/3 steps go out on it: 1–3/);
    await userEvent.click(button('Keep it'));
    expect((await byCode(store, 'outings')).has('O1')).toBe(true);
    await store.commit({
      action: 'remove-step',
      title: 'Remove',
      proposals: [...(await byCode(store, 'steps')).values()]
        .filter(({ outing }) => outing === 'O2')
        .map(({ id, rev }) => ({ table: 'steps' as const, remove: { id, rev } })),
    });
    await userEvent.click(row(/^Outing O2/));
    await userEvent.click(button('Remove…'));
    await expectOneAct(store, 'Remove outing O2', tables, () => userEvent.click(button('Remove outing O2')));
    expect([...(await byCode(store, 'outings')).keys()]).toEqual(['O1']);
  });

  it('is put in order by keys and by buttons, and the focus goes along', async () => {
    const { store } = await openTask(plan, '#/outings/O1');
    await expectOneAct(store, 'Move outing “Strip” down', tables, () => userEvent.click(button('Move down')));
    inHand().focus();
    await userEvent.keyboard('{Alt>}{ArrowUp}{/Alt}');
    await expect.poll(() => store.history().undo?.title).toBe('Move outing “Strip” up');
    await expect.poll(() => document.activeElement === inHand()).toBe(true);
    await expect.element(button('Move up')).toHaveAttribute('aria-disabled', 'true');
  });
});

describe('without outings', () => {
  it('offers the first one', async () => {
    await openTask({ ...plan, outings: [], steps: [] }, '#/outings');
    await expect.element(heading('This task has no outings yet')).toBeVisible();
    await userEvent.click(button('Add the first outing'));
    await expect.element(field('Role 1')).toHaveValue('Lead');
  });
});
