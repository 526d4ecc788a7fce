import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { calloutQuery } from '../../renderer/features/steps/calloutQuery.ts';
import { shownPlan } from './fixtures/plans.ts';
import { button, byCode, field, heading, openTask, save } from './support/openTask.tsx';

const from = () => field('Callout, from (with unit)');
const to = () => field('Callout, to (with unit)');
const query = () => page.getByRole('status').filter({ hasText: /published/ });

describe('a callout whose unit may be mixed up', () => {
  it('is queried as it is typed, with the sources, and can be saved all the same', async () => {
    const { store } = await openTask(shownPlan(), '#/steps/tighten');
    await userEvent.click(button('Edit step'));
    // 3/8-24: 85 lbf·in to 37 lbf·ft over all documents held.
    await expect.element(from()).toHaveValue('30 lbf·ft');
    await expect.element(query()).not.toBeInTheDocument();

    await userEvent.fill(from(), '160 lbf·ft');
    await userEvent.fill(to(), '190 lbf·ft');
    await expect.element(query()).toBeVisible();
    await expect.element(query()).toHaveAttribute('data-query', 'doubt');
    await expect
      .element(query())
      .toHaveTextContent(
        /^Is the unit right\? 160–190 lbf·ft .* goes above all that is published for 3\/8-24 UNF-3A: 85 lbf·in .*\[TM 55-1520-240-23-1, .*\] to 37 lbf·ft .*\[TM 9-2320-362-14&P, Table F-1, by diameter\]\. In lbf·in /,
      );
    await expect.element(from()).not.toHaveAttribute('aria-invalid', 'true');

    await userEvent.fill(from(), '160 lbf·in');
    await userEvent.fill(to(), '190 lbf·in');
    await expect.element(query()).not.toBeInTheDocument();

    await userEvent.fill(from(), '30 lbf·in');
    await userEvent.fill(to(), '35 lbf·in');
    await expect.element(query()).toHaveTextContent(/goes below/);
    await save();
    await expect.element(heading(/Tighten/)).toHaveFocus();
    expect((await byCode(store, 'steps')).get('tighten')?.callout).toEqual({ min: '30 lbf·in', max: '35 lbf·in' });
  });

  it('says where nothing is held to compare with, without a doubt', async () => {
    const shown = shownPlan();
    const fasteners = [{ id: 'F1', thread: 'M64', head: { form: 'hex', acrossFlats: '9/16 in' } }];
    const plan = { ...shown, catalog: { ...shown.catalog, fasteners } };
    await openTask(plan, '#/steps/tighten');
    await userEvent.click(button('Edit step'));
    await expect.element(query()).toHaveTextContent(/^No published value held for M64/);
    await expect.element(query()).toHaveAttribute('data-query', 'not-held');
  });
});

it.each<[{ min: string; max: string } | undefined, string | undefined]>([
  [undefined, '3/8-24'],
  [{ min: '160 lbf·ft', max: '190 lbf·ft' }, undefined],
  [{ min: '160 lbf·ft', max: '190' }, '3/8-24'],
  [{ min: '160 lbf·ft', max: '190 mm' }, '3/8-24'],
  [{ min: '190 lbf·ft', max: '160 lbf·ft' }, '3/8-24'],
  [{ min: '', max: '' }, '3/8-24'],
  [{ min: '160 lbf·ft', max: '190 lbf·ft' }, 'no thread'],
])('%o on %s: nothing is asked of what cannot be read', (callout, thread) => {
  expect(calloutQuery(callout, thread)).toBeNull();
});

it('one end alone is asked about too', () => {
  expect(calloutQuery({ min: '160 lbf·ft', max: '' }, '3/8-24')?.kind).toBe('doubt');
});
