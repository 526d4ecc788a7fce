import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { KeptResult } from '../../renderer/store/session.ts';
import { mapOuting, mapResult, mapSource } from '../support/bagMapPlan.ts';
import { axeFaults } from './support/axe.ts';
import { button, field, openTask } from './support/openTask.tsx';

async function openBag(change: Partial<KeptResult> | null = {}) {
  const opened = await openTask(mapSource, '#/bag');
  if (change !== null) keep(opened, change);
  return opened;
}

function keep({ session }: Awaited<ReturnType<typeof openTask>>, change: Partial<KeptResult>): void {
  const { planHash } = session.state().atHand ?? { planHash: '' };
  const plannedAt = new Date().toISOString();
  session.keepResult(planHash, { minimised: 'mass', timeLimitS: null, plannedAt, result: mapResult, ...change });
}

const comparison = () => page.getByRole('region', { name: 'Two planned bags side by side' });
const wishes = () => page.getByRole('list', { name: 'Asked for beyond the plan' });

describe('the form', () => {
  it('asks the planner for what was chosen, and keeps it with the answer for the next time', async () => {
    const { planner, session } = await openBag(null);
    await userEvent.selectOptions(field('Plan for'), 'Fewest pieces');
    await userEvent.click(page.getByRole('radio', { name: 'Any one piece' }));
    await userEvent.selectOptions(field('What'), 'Keep always');
    await userEvent.fill(page.getByRole('combobox', { name: 'Item of the stock' }), 'socket');
    await userEvent.keyboard('{ArrowDown}{Enter}');
    await userEvent.fill(field('Pieces'), '2');
    await userEvent.click(button('Add item'));
    await expect.element(wishes()).toHaveTextContent('Kept always: 2 × Socket 13 mm (S-13)');
    await userEvent.selectOptions(field('What'), 'Forbid');
    await userEvent.fill(page.getByRole('combobox', { name: 'Item of the stock' }), 'X-150');
    await userEvent.click(button('Add item'));
    await userEvent.fill(field('Time limit (s)'), '30');
    await userEvent.click(button('Plan the bag'));
    await expect
      .poll(() => planner.runs[0]?.options)
      .toEqual({
        minimise: 'count',
        tolerance: 'piece',
        wishes: { keep: [{ id: 'S-13', quantity: 2 }], forbid: [{ id: 'X-150' }], spares: [] },
        timeLimitS: 30,
      });
    planner.runs[0]?.answer({ ...mapResult, singleLoss: true, tolerance: 'piece' });
    await expect.element(page.getByText('any one piece lost').first()).toBeVisible();
    expect(session.state().result).toMatchObject({ minimised: 'count', tolerance: 'piece', timeLimitS: 30 });
    await userEvent.click(button('Plan again…'));
    await expect.element(page.getByRole('radio', { name: 'Any one piece' })).toBeChecked();
    await expect.element(field('Plan for')).toHaveValue('count');
    await expect.element(wishes()).toHaveTextContent('Forbidden: extension X-150');
    await userEvent.click(button('Remove: Forbidden: extension X-150'));
    await expect.element(wishes()).not.toHaveTextContent('Forbidden');
  });

  it('shows no answer that was made for another tolerance than was asked', async () => {
    const { planner, session } = await openBag(null);
    await userEvent.click(page.getByRole('radio', { name: 'Any one piece' }));
    await userEvent.click(button('Plan the bag'));
    planner.runs[0]?.answer(mapResult);
    await expect
      .element(page.getByText(/answered for “nothing lost”, and was asked for “any one piece lost”/))
      .toBeVisible();
    expect(session.state().result).toBeNull();
  });

  it('says each tolerance in plain words, and that one bag alone cannot be lost', async () => {
    const outings = mapSource.outings.map((outing) => ({ ...outing, bags: ['L'] }));
    await openTask({ ...mapSource, outings }, '#/bag');
    await expect
      .element(page.getByRole('radio', { name: 'Any one piece' }))
      .toHaveAccessibleDescription(/lost or broken/);
    await userEvent.click(page.getByRole('radio', { name: 'Any one bag' }));
    await expect.element(page.getByRole('note')).toHaveTextContent('Only outing has one bag only');
  });

  it('refuses in the field and above with the same words, and moves the focus', async () => {
    const { planner } = await openBag(null);
    await userEvent.fill(page.getByRole('combobox', { name: 'Item of the stock' }), 'S-13');
    await userEvent.keyboard('{Escape}');
    await userEvent.fill(field('Time limit (s)'), 'soon');
    await userEvent.click(button('Plan the bag'));
    await expect.element(page.getByRole('heading', { name: '2 fields to mend' })).toHaveFocus();
    expect(page.getByText(/typed and not added yet/).elements()).toHaveLength(2);
    expect(page.getByText(/^Time limit "soon"/).elements()).toHaveLength(2);
    expect(planner.runs).toHaveLength(0);
    await userEvent.click(page.getByRole('button', { name: /typed and not added yet/ }));
    await expect.element(page.getByRole('combobox', { name: 'Item of the stock' })).toHaveFocus();
  });

  it('refuses an item that is not in stock, and more than is on hand, at their fields', async () => {
    await openBag(null);
    await userEvent.fill(page.getByRole('combobox', { name: 'Item of the stock' }), 'S-99');
    await userEvent.click(button('Add item'));
    await expect.element(page.getByText(/Item "S-99": not in this task’s stock/)).toBeVisible();
    await expect.element(page.getByRole('combobox', { name: 'Item of the stock' })).toHaveFocus();
    await userEvent.fill(page.getByRole('combobox', { name: 'Item of the stock' }), 'S-13');
    await userEvent.fill(field('Pieces'), '9');
    await userEvent.click(button('Add item'));
    await expect.element(page.getByText('Pieces "9": 4 of S-13 on hand, 5 too few.')).toBeVisible();
  });

  it('axe knows no fault of it, empty, filled and refused', async () => {
    await openBag(null);
    await expect.element(button('Plan the bag')).toBeVisible();
    expect(await axeFaults()).toEqual([]);
    await userEvent.fill(page.getByRole('combobox', { name: 'Item of the stock' }), 'S-13');
    await userEvent.keyboard('{Escape}{Enter}');
    await userEvent.fill(field('Time limit (s)'), 'soon');
    await userEvent.click(button('Plan the bag'));
    await expect.element(page.getByRole('heading', { name: '1 field to mend' })).toHaveFocus();
    expect(await axeFaults()).toEqual([]);
  });
});

describe('the line in hand', () => {
  it('is kept, forbidden or spared for the next plan; the later of two opposites holds', async () => {
    const { planner } = await openBag();
    await userEvent.click(page.getByRole('row', { name: /Tool tether/ }));
    await userEvent.click(button('Keep always'));
    await expect.element(button('Keep always')).toHaveAttribute('aria-pressed', 'true');
    await expect.element(wishes()).toHaveTextContent('Kept always: 3 × Tool tether (T-07)');
    await userEvent.click(button('Add one spare'));
    await userEvent.click(button('Forbid'));
    await expect.element(wishes()).toHaveTextContent('Forbidden: Tool tether (T-07)');
    await expect.element(wishes()).not.toHaveTextContent('Kept always');
    await expect.element(page.getByText(/T-07 is forbidden in the form: plan again/)).toBeVisible();
    await userEvent.click(button('Plan again'));
    await expect
      .poll(() => planner.runs[0]?.options.wishes)
      .toEqual({ keep: [], forbid: [{ id: 'T-07' }], spares: [] });
  });

  it('that is a tool piece has no spare: it is kept instead', async () => {
    await openBag();
    await userEvent.click(page.getByRole('row', { name: /Socket 13 mm/ }));
    await expect.element(button('Keep always')).toBeVisible();
    expect(button('Add one spare').elements()).toEqual([]);
  });
});

describe('two bags side by side', () => {
  it('say so while there is one alone', async () => {
    await openBag();
    await expect.element(comparison()).toHaveTextContent(/There is one planned bag of this task.*the last 6 are kept/s);
  });

  it('show what only one packs, other quantities and bags, with sign and unit', async () => {
    const opened = await openBag({ plannedAt: '2026-11-25T10:00:00.000Z' });
    const [ratchet, , tether, wipes] = mapOuting.items;
    if (ratchet === undefined || tether === undefined || wipes === undefined) throw new Error('no lines');
    const items = [ratchet, { ...tether, quantity: 5 }, { ...wipes, bag: 'C' }];
    const objective = { minimised: 'count' as const, value: 8, unit: 'pieces' as const, bound: 8, gap: 0 };
    const outings = [{ ...mapOuting, items, massKg: 0.78 }];
    keep(opened, { minimised: 'count', result: { ...mapResult, outings, objective } });
    const rows = comparison().getByRole('row');
    await expect
      .element(rows.filter({ hasText: /^Answer/ }))
      .toHaveTextContent(/0\.834 kg, proved least.*8 pieces, proved least.*least in different things/);
    await expect.element(rows.filter({ hasText: 'Mass with the bags' })).toHaveTextContent('−0.054 kg');
    await expect
      .element(rows.filter({ hasText: 'Socket 13 mm' }))
      .toHaveTextContent(/only in one.*−1 piece, −0\.150 kg/);
    await expect
      .element(rows.filter({ hasText: 'Tool tether' }))
      .toHaveTextContent(/other quantity.*\+2 pieces, \+0\.096 kg/);
    await expect
      .element(rows.filter({ hasText: 'Wipes' }))
      .toHaveTextContent(/other bag.*2 in Second’s bag.*2 in Common box/);
    await expect.element(comparison()).toHaveTextContent(/3 lines differ, 1 the same/);
    expect(await axeFaults()).toEqual([]);
    const one = comparison().getByLabelText('One', { exact: true });
    await expect.element(one).toBeEnabled();
    await expect
      .poll(async () => {
        await userEvent.selectOptions(one, opened.session.state().past[0]?.plannedAt ?? '');
        return comparison().element().textContent;
      })
      .toContain('That is the same one twice');
  });

  it('are still there after the task has changed and its bag is to be planned again', async () => {
    const opened = await openBag({ plannedAt: '2026-11-25T10:00:00.000Z' });
    keep(opened, { minimised: 'count' });
    await expect.poll(() => opened.session.state().past.length).toBe(2);
    const step = [...opened.store.table('steps').state().rows.values()].find(({ code }) => code === 'wipe');
    if (step === undefined) throw new Error('no step');
    await opened.store.commit({
      ...{ action: 'edit-step', title: 'Edit' },
      proposals: [{ table: 'steps', put: { ...step, gear: [{ id: 'W-10', quantity: 1 }] } }],
    });
    await expect.element(page.getByRole('heading', { name: 'The bag is to be planned again' })).toBeVisible();
    await expect
      .element(comparison().getByLabelText('One', { exact: true }))
      .toHaveTextContent(/earlier state of the task/);
  });
});
