import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { shownPlan } from './fixtures/plans.ts';
import { axeFaults } from './support/axe.ts';
import { button, byCode, chooseIn, expectOneAct, field, openTask, row, save } from './support/openTask.tsx';

const plan = {
  ...shownPlan(),
  outings: [
    { id: 'O1', name: 'Strip', roles: ['Lead', 'Second'], bags: ['B-1'] },
    { id: 'O2', name: 'Close', roles: ['Lead'], bags: ['B-1'] },
  ],
};
const summaryHasFocus = () => expect.element(page.getByRole('heading', { name: /to mend$/ })).toHaveFocus();
const carries = (role: number) => field(`Role ${role}, carries at most, optional (with unit)`);

/** The plan file as it is saved, brought in again by another window. */
async function broughtInAgain({ session }: Awaited<ReturnType<typeof openTask>>, says: string, address: string) {
  const written = (): string => session.state().atHand?.text ?? '';
  await expect.poll(written).toContain(says);
  const text = written();
  return openTask(JSON.parse(text), address);
}

describe('what an outing says of its roles', () => {
  it('is typed at the role, refused at its field, follows a new name, and comes back from a file', async () => {
    const opened = await openTask(plan, '#/outings/O1');
    await userEvent.click(button('Edit outing'));
    await userEvent.fill(carries(1), '4');
    await userEvent.tab();
    await chooseIn('May take each other’s steps', 'Only the pairs named here');
    await userEvent.click(button('Add a pair of roles'));
    await chooseIn('Pair 1, one role', 'Lead');
    await save();
    await summaryHasFocus();
    await expect.element(button(/^Role 1, carries at most: "4" has no unit.*"4 kg"/)).toBeVisible();
    await expect.element(button('Pair 1, the other is missing: choose a role, or take the pair out.')).toBeVisible();
    expect(await axeFaults()).toEqual([]);
    await userEvent.fill(carries(1), '4 kg');
    await chooseIn('Pair 1, the other', 'Lead');
    await save();
    await expect.element(button(/^Pair 1, the other: "Lead" names one role twice/)).toBeVisible();
    await chooseIn('Pair 1, the other', 'Second');
    (field('Pair 1, the other').element() as HTMLElement).focus();
    await expectOneAct(opened.store, 'Edit outing “Strip”', ['outings'], save);
    expect((await byCode(opened.store, 'outings')).get('O1')).toMatchObject({
      carryMax: [{ role: 'Lead', mass: '4 kg' }],
      swaps: [['Lead', 'Second']],
    });
    await expect.element(page.getByText('Lead 4 kg')).toBeVisible();
    await expect.element(page.getByText('Lead and Second', { exact: true })).toBeVisible();

    await userEvent.click(button('Edit outing'));
    await expect.element(carries(1)).toHaveValue('4 kg');
    await userEvent.fill(field('Role 1'), 'Chief');
    await save();
    const rolesKept = async () => (await byCode(opened.store, 'outings')).get('O1')?.roles;
    await expect.poll(rolesKept).toEqual(['Chief', 'Second']);
    const again = await broughtInAgain(opened, 'Chief', '#/outings/O1');
    expect((await byCode(again.store, 'outings')).get('O1')).toMatchObject({
      carryMax: [{ role: 'Chief', mass: '4 kg' }],
      swaps: [['Chief', 'Second']],
    });
  });

  it('goes with the role that is taken out', async () => {
    const roles = ['Lead', 'Second', 'Winch'];
    const swaps = [
      ['Lead', 'Winch'],
      ['Winch', 'Second'],
    ];
    const carryMax = roles.map((role) => ({ role, mass: '5 kg' }));
    const steps = shownPlan().steps.map((step) => ({ ...step, role: step['role'] === 'Lead' ? 'Winch' : 'Second' }));
    const opened = await openTask(
      { ...plan, steps, outings: [{ id: 'O1', name: 'Strip', roles, bags: ['B-1'], swaps, carryMax }] },
      '#/outings/O1',
    );
    await userEvent.click(button('Edit outing'));
    await userEvent.click(button('Take out role 1'));
    await expectOneAct(opened.store, 'Edit outing “Strip”', ['outings'], save);
    expect((await byCode(opened.store, 'outings')).get('O1')).toMatchObject({
      roles: ['Second', 'Winch'],
      swaps: [['Winch', 'Second']],
      carryMax: [
        { role: 'Second', mass: '5 kg' },
        { role: 'Winch', mass: '5 kg' },
      ],
    });
  });
});

describe('what an item says of its way', () => {
  async function edit(code: string): Promise<void> {
    await userEvent.click(row(new RegExp(`${code}\\b`)));
    await userEvent.click(button('Edit'));
  }

  it('is a fastener’s loose washers and a pouch’s places, refused at the field, and back from a file', async () => {
    const opened = await openTask(plan, '#/catalog');
    await edit('F1');
    await userEvent.click(page.getByText('More', { exact: true }));
    const washers = field('Loose washers under one (pieces), optional');
    await userEvent.fill(washers, '21');
    await save();
    await summaryHasFocus();
    await expect.element(button(/^Loose washers under one \(pieces\)/)).toBeVisible();
    await userEvent.fill(washers, '2');
    await expectOneAct(opened.store, 'Edit F1', ['items'], save);
    await edit('C-1');
    const places = field('Places for loose pieces (pieces), optional');
    await userEvent.fill(places, '1.5');
    await save();
    await summaryHasFocus();
    await expect.element(button(/^Places for loose pieces \(pieces\)/)).toBeVisible();
    expect(await axeFaults()).toEqual([]);
    await userEvent.fill(places, '30');
    await expectOneAct(opened.store, 'Edit C-1', ['items'], save);
    await expect.element(page.getByText('Places for loose pieces', { exact: true })).toBeVisible();
    const again = await broughtInAgain(opened, 'pouchPlaces', '#/catalog');
    const items = await byCode(again.store, 'items');
    expect(items.get('F1')).toMatchObject({ looseWashers: 2 });
    expect(items.get('C-1')).toMatchObject({ pouchPlaces: 30 });
  });
});

describe('the courses of a task', () => {
  it('are drawn one below the other at one scale, each with its problems, or one alone', async () => {
    const lay = (id: string, outing: string, minutes: number, [from, to]: [string, string]) => ({
      ...{ id, name: `Lay ${id}`, outing, role: 'Lead', action: 'use', minutes },
      moves: [{ id: 'C-1', quantity: 1, from, to }],
    });
    const steps = [lay('a', 'O1', 10, ['bag', 'rock']), lay('b', 'O2', 30, ['rock', 'ledge'])];
    const places = [
      { id: 'rock', name: 'Landing rock' },
      { id: 'ledge', name: 'Upper ledge' },
    ];
    await openTask({ ...plan, places, steps }, '#/outings/O1');
    await expect.element(page.getByRole('figure', { name: 'Course of Strip' })).toBeVisible();
    await userEvent.click(page.getByText('All outings', { exact: true }));
    const first = page.getByRole('figure', { name: 'Course of Strip' });
    const second = page.getByRole('figure', { name: 'Course of Close' });
    await expect.element(first).toBeVisible();
    await expect.poll(() => document.querySelectorAll('.bw-timeline-way[data-item="C-1"]').length).toBe(2);
    const widthOf = (of: typeof first): number =>
      of.element().querySelector('.bw-timeline-box')?.getBoundingClientRect().width ?? 0;
    expect(widthOf(second) / widthOf(first)).toBeCloseTo(3, 1);
    // What the first outing lays down, the second finds there.
    await expect.element(second).toHaveTextContent(/Landing rock/);
    await expect.element(page.getByText(/Left behind/).first()).toBeVisible();
    await expect.element(page.getByText(/Step Lay b \(b\) lays C-1 at Upper ledge \(ledge\)/)).toBeVisible();
    const mark = document.querySelector<HTMLElement>('.bw-timeline-mark');
    mark?.focus();
    await userEvent.keyboard('{Enter}');
    await expect
      .poll(() => document.activeElement?.querySelector('.bw-course-mends a')?.textContent)
      .toBe('Go to step 2, Lay b');
    expect(await axeFaults()).toEqual([]);
    await userEvent.click(page.getByText('This outing', { exact: true }));
    await expect.element(second).not.toBeInTheDocument();
  });
});
