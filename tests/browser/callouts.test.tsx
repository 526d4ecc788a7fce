/** The place of the callouts in the window: taken from steps, typed, judged, accepted, undone; and a file that is not kept. */
import { expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { smallPlan } from '../support/smallPlan.ts';
import { axeFaults } from './support/axe.ts';
import { rowsOf } from './support/keptStore.ts';
import { button, expectOneAct, field, heading, openTask, row, save } from './support/openTask.tsx';

const tables = ['calloutLists', 'callouts'] as const;
const inHand = () => page.getByRole('region', { name: 'Callout in hand' });
const place = () => page.getByRole('link', { name: /^Callouts/ });

async function open() {
  const plan = smallPlan();
  const [step] = plan.steps;
  return await openTask(
    { ...plan, steps: [{ ...step, id: 'flange', action: 'tighten', callout: { min: '30 lbf·ft', max: '35 lbf·ft' } }] },
    '#/callouts',
  );
}

async function typeCallout(cells: Record<string, string>): Promise<void> {
  await userEvent.click(button('Add callout'));
  for (const group of ['Preload', 'Tool, passes and turn'])
    await userEvent.click(page.getByText(group, { exact: true }));
  for (const [label, typed] of Object.entries(cells)) await userEvent.fill(field(label), typed);
}

it('takes the callouts of the steps, types one, says what would conform, accepts and withdraws, all to be undone', async () => {
  const { store, session } = await open();
  await expect.element(heading('No callouts yet')).toBeVisible();
  await expect.element(place()).toHaveTextContent('none yet');
  await expectOneAct(store, 'Take the callouts of 1 step', tables, () =>
    userEvent.click(button('Take the callouts of 1 step')),
  );
  await expect.element(heading('flange')).toBeVisible();
  await expect.element(inHand()).toHaveTextContent('outside-published-band');
  await expect.element(place()).toHaveTextContent('1 indeterminate');

  await typeCallout({
    Id: 'B-1',
    Thread: '3/8-24',
    'Torque, least, optional (with unit)': '30 lbf·ft',
    'Torque, most, optional (with unit)': '35',
  });
  await save();
  await expect.element(page.getByRole('heading', { name: /to mend$/ })).toHaveFocus();
  await expect.element(page.getByRole('button', { name: /^Torque, most: "35" has no unit/ })).toBeVisible();
  expect(await axeFaults()).toEqual([]);
  for (const [label, typed] of Object.entries({
    'Torque, most, optional (with unit)': '35 lbf·ft',
    'Class, grade or material, optional': 'SAE J429 grade 8',
    'Nut factor K, optional': '0.2',
    'Scatter of preload, ±, optional': '25 %',
    'Preload, least, optional (with unit)': '4000 lbf',
    'Tool, ± of the reading, optional': '4 %',
  }))
    await userEvent.fill(field(label), typed);
  await expect.element(page.getByText('47 N·m · kept as typed')).toBeVisible();
  await expect.element(page.getByText(/^As typed now:/)).toHaveTextContent('As typed now: Nonconforming');
  await expectOneAct(store, 'Add callout B-1', tables, save);
  await expect.element(heading('B-1')).toBeVisible();
  const kept = [...(await rowsOf(store, 'callouts')).values()].find(({ cells }) => cells['id'] === 'B-1');
  expect(kept?.cells).toMatchObject({ torqueMin: '30 lbf·ft', preloadMin: '4000 lbf', toolAccuracy: '4 %' });
  const [list] = (await rowsOf(store, 'calloutLists')).values();
  expect(list?.columns).toEqual(expect.arrayContaining(['id', 'nutFactor', 'toolAccuracy']));

  await expect.element(row(/^B-1/)).toHaveTextContent(/Nonconforming2$/);
  await expect.element(inHand()).toHaveTextContent('3600 against 4000 lbf');
  await expect.element(page.getByRole('figure', { name: 'Preload against torque, B-1' })).toBeVisible();
  await expect
    .element(page.getByRole('link', { name: 'FAA AC 43.13-1B, Table 7-1' }))
    .toHaveAttribute('href', '#/handbook/torque-faa-ac-43.13-fine');
  await userEvent.click(button('Write it into the form'));
  await expect.element(field('Torque, least, optional (with unit)')).toHaveValue('33.4 lbf·ft');
  await expect.element(page.getByText(/^As typed now:/)).toHaveTextContent('As typed now: Indeterminate');
  // What was only proposed is no entry of the person's: leaving the form loses nothing.
  await userEvent.keyboard('{Escape}');
  await expect.element(heading('B-1')).toBeVisible();

  await userEvent.click(button('Accept preload-below-minimum…'));
  await userEvent.click(button('Accept preload-below-minimum'));
  await expect.element(page.getByText('Reason is missing.')).toBeVisible();
  expect(await axeFaults()).toEqual([]);
  await userEvent.fill(field('Reason'), 'Drawing note 7');
  await userEvent.fill(field('Your name'), 'S. Quill');
  await expectOneAct(store, 'Accept preload-below-minimum on B-1', tables, () =>
    userEvent.click(button('Accept preload-below-minimum')),
  );
  await expect.element(inHand()).toHaveTextContent('Nonconforming, accepted in part by S. Quill');
  await expect.element(row(/^B-1/)).toHaveTextContent(/Nonconforming2, 1 accepted$/);
  session.prefer({ scheme: 'dark' });
  await expect.poll(() => document.documentElement.dataset['mantineColorScheme']).toBe('dark');
  expect(await axeFaults()).toEqual([]);
  session.prefer({ scheme: 'light' });
  await expectOneAct(store, 'Withdraw the acceptance of preload-below-minimum on B-1', tables, () =>
    userEvent.click(button('Withdraw the acceptance of preload-below-minimum')),
  );
  await expect.element(row(/^B-1/)).toHaveTextContent(/Nonconforming2$/);

  await userEvent.selectOptions(field('Decision'), 'Nonconforming');
  await expect.element(page.getByText('1 of 2', { exact: true })).toBeVisible();
  await userEvent.click(button('Show all'));
  await userEvent.click(row(/^flange/));
  await userEvent.keyboard('{ArrowDown}');
  await expect.element(heading('B-1')).toBeVisible();
  await userEvent.keyboard('{Delete}');
  await expectOneAct(store, 'Remove callout B-1', tables, () => userEvent.click(button('Remove callout B-1')));
  await expect.element(heading('flange')).toBeVisible();
});

it('judges a file without keeping it, tells what cannot be read, and keeps what can be as one act', async () => {
  const { store } = await open();
  const csv = [
    'Id;Thread;torqueMin;torqueMax;sheet',
    'A;M10;45,5 N·m;50 N·m;1',
    'B;M10;50 N·m;45 N·m;2',
    'C;M10;=1+1;45 N·m;3',
  ].join('\n');
  await expect.element(heading('No callouts yet')).toBeVisible();
  const input = document.querySelector<HTMLInputElement>('input[type=file]');
  if (input === null) throw new Error('no way to a file');
  await userEvent.upload(input, new File([csv], 'Flange.csv', { type: 'text/csv' }));
  await expect.element(page.getByText('judged, not kept')).toBeVisible();
  await expect.element(page.getByRole('heading', { name: /holds cells that cannot be read: 1 fault/ })).toBeVisible();
  await expect.element(row(/^B M10/)).toHaveTextContent('Nonconforming');
  await expect.element(row(/^C M10/)).toHaveTextContent('Not readable');
  expect(await axeFaults()).toEqual([]);
  expect((await rowsOf(store, 'callouts')).size).toBe(0);
  await expectOneAct(store, 'Add list “Flange”', tables, () => userEvent.click(button('Keep the 2 that can be read')));
  const cells = [...(await rowsOf(store, 'callouts')).values()].map((callout) => callout.cells);
  expect(cells).toContainEqual({ id: 'A', thread: 'M10', torqueMin: '45,5 N·m', torqueMax: '50 N·m', sheet: '1' });
  await expect.element(field('List of callouts')).toHaveTextContent('Flange');
  await expect.element(row(/^B M10/)).toHaveTextContent('Nonconforming');
});
