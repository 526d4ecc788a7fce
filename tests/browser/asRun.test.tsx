/** The place of the records and the findings in the window: the example's records, a tool found out, a record typed, the report. */
import { expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { smallPlan } from '../support/smallPlan.ts';
import { axeFaults } from './support/axe.ts';
import { rowsOf } from './support/keptStore.ts';
import { button, expectOneAct, field, heading, openTask, row, save } from './support/openTask.tsx';

const tables = ['calloutLists', 'callouts', 'asRunLists', 'asRuns'] as const;
const inHand = () => page.getByRole('region', { name: 'Record in hand' });
const place = (name: RegExp) => page.getByRole('link', { name });

it('takes the example’s records, judges them, draws the pattern, re-opens what a tool set, and gathers it', async () => {
  const plan = smallPlan();
  const { store, session } = await openTask(
    { ...plan, task: { id: 'skua-rock-light', name: 'Azimuth drive change' } },
    '#/asrun',
  );
  await expect.element(heading('No records yet')).toBeVisible();
  await expectOneAct(store, 'Add the records of the example', tables, () =>
    userEvent.click(button('Take the example’s records')),
  );
  await expect.element(page.getByRole('status').filter({ hasText: '53 of 53' })).toBeVisible();
  await expect.element(place(/^As-run/)).toHaveTextContent('6 nonconforming');

  const find = field('Find a record: callout, position, serial, time or rule');
  await userEvent.fill(find, 'b3-flange');
  await userEvent.click(row(/^b3-flange 6/));
  await expect.element(heading('b3-flange, position 6, cycle 1')).toBeVisible();
  await expect.element(inHand()).toHaveTextContent('final-outside-callout');
  const chart = page.getByRole('figure', { name: 'Pattern of b3-flange, cycle 1' });
  await expect.element(chart).toHaveTextContent('Not to scale: a ring of the positions');
  const two = chart.getByRole('button', { name: /^Position 2, Indeterminate, .*order 3, was 2$/ });
  await expect.element(two).toBeVisible();
  expect(await axeFaults()).toEqual([]);
  chart
    .getByRole('button', { name: /^Position 6, Nonconforming/ })
    .element()
    .dispatchEvent(new Event('focus'));
  await userEvent.click(two);
  await expect.element(heading('b3-flange, position 2, cycle 1')).toBeVisible();

  await userEvent.fill(find, 'b4-coupling locking-wears');
  await userEvent.click(row(/^b4-coupling 2 6/));
  await expect.element(inHand()).toHaveTextContent('Breakaway torque: Cannot know:');
  await expect
    .element(page.getByRole('figure', { name: 'Running and breakaway torque, b4-coupling, position 2' }))
    .toBeVisible();
  await expect.element(page.getByRole('figure', { name: 'Seating torque, b4-coupling, position 2' })).toBeVisible();
  session.prefer({ scheme: 'dark' });
  await expect.poll(() => document.documentElement.dataset['mantineColorScheme']).toBe('dark');
  expect(await axeFaults()).toEqual([]);
  session.prefer({ scheme: 'light' });
  await userEvent.fill(find, 'b3-flange');
  await userEvent.click(row(/^b3-flange 6/));

  await userEvent.click(button('Every value of SK-038'));
  await expect.element(heading('Tool SK-038')).toBeVisible();
  await expect.element(page.getByText('33 values in 1 list.')).toBeVisible();
  await userEvent.click(button('Found out of calibration…'));
  await userEvent.fill(field('Last known to be right'), '2026-13-01');
  await userEvent.click(button('Re-open its values'));
  await expect.element(page.getByText('Reason is missing.')).toBeVisible();
  await expect.element(page.getByText(/“2026-13-01” is no day/)).toBeVisible();
  await userEvent.fill(field('Last known to be right'), '2026-04-01');
  await userEvent.fill(field('Reason'), 'Reads 7 % high');
  await userEvent.fill(field('Your name'), 'S. Quill');
  await expectOneAct(store, 'Found out tool SK-038', tables, () => userEvent.click(button('Re-open its values')));
  await expect.element(page.getByText('33 values in 1 list, 13 re-opened.')).toBeVisible();
  await userEvent.click(row(/^b3-flange 1/));
  await expect.element(row(/^b3-flange 1/)).toHaveTextContent('Re-opened');
  await userEvent.click(button('Accept tool-found-out…'));
  await userEvent.fill(field('Reason'), 'Checked again with SK-039');
  await userEvent.fill(field('Your name'), 'S. Quill');
  await expectOneAct(store, 'Accept tool-found-out on b3-flange / 1 / 1', tables, () =>
    userEvent.click(button('Accept tool-found-out')),
  );
  await expect.element(row(/^b3-flange 1/)).not.toHaveTextContent('Re-opened');

  await userEvent.click(button('Add record'));
  await userEvent.selectOptions(field('Callout'), 'b3-flange');
  await userEvent.fill(field('Position'), '7');
  await userEvent.fill(field(/^Final torque/), '600');
  await save();
  await expect.element(page.getByRole('button', { name: /^Final torque: "600" has no unit/ })).toBeVisible();
  expect(await axeFaults()).toEqual([]);
  await userEvent.fill(field(/^Final torque/), '600 lbf·in');
  await expect.element(page.getByText(/^As typed now:/)).toBeVisible();
  await expectOneAct(store, 'Add record b3-flange / 7 / 1', tables, save);
  await expect.element(heading('b3-flange, position 7, cycle 1')).toBeVisible();
  const kept = [...(await rowsOf(store, 'asRuns')).values()].find(({ cells }) => cells['position'] === '7');
  expect(kept?.cells['final']).toBe('600 lbf·in');

  window.location.hash = '#/findings';
  await expect.element(page.getByRole('grid', { name: 'Findings' })).toBeVisible();
  await userEvent.selectOptions(field('Acceptance'), 'Accepted');
  await expect.element(row(/b3-flange \/ 1 \/ 1/)).toHaveTextContent('S. Quill');
  await expect.element(page.getByRole('region', { name: 'Finding in hand' })).toHaveTextContent('Checked again');
  expect(await axeFaults()).toEqual([]);
  await userEvent.selectOptions(field('Acceptance'), 'Open');
  await expect.element(row(/over a2-eye/)).toHaveTextContent('Nonconforming, over');
  await userEvent.click(button('Sign report…'));
  await expect.element(heading('Judgement of torque callouts and as-run records')).toBeVisible();
  expect(await axeFaults()).toEqual([]);
});
