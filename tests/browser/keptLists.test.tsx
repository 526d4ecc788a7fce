/** Lists that are kept: rows copied and pasted back, a list that others refer to, and what is told where a list cannot be read. */
import { expect, it, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { keptDesk } from '../../renderer/features/callouts/desks.ts';
import type { Proposal } from '../../renderer/store/store.ts';
import { smallPlan } from '../support/smallPlan.ts';
import { axeFaults } from './support/axe.ts';
import { callout, calloutList, put, rowsOf } from './support/keptStore.ts';
import { button, expectOneAct, heading, openTask, row } from './support/openTask.tsx';

const tables = ['calloutLists', 'callouts', 'asRunLists', 'asRuns'] as const;
const columns = [
  'id',
  'thread',
  'torqueMin',
  'torqueMax',
  'strength',
  'nutFactor',
  'lubrication',
  'sheet',
  'Where',
  'Note',
];

/** Cells of a drawing's table, and what a spreadsheet makes trouble of: tabs, breaks, quotation marks, formulas, units of all kinds. */
function cellsOf(at: number): Record<string, string> {
  const odd = ['=1+1', '"as drawn"', 'two\nlines', 'a\ttab', "'quoted", '-5', '+44 1', '@deck', '3/4', '1,5'];
  return {
    id: `C-${at}`,
    thread: at % 2 === 0 ? 'M10x1.5' : '3/8-24 UNF',
    torqueMin: at % 2 === 0 ? `${40 + (at % 5)} N·m` : `${28 + (at % 5)} lbf·ft`,
    torqueMax: at % 3 === 0 ? '600 lbf·in' : '52,5 N·m',
    ...(at % 4 === 2 ? { strength: '8.8' } : {}),
    nutFactor: '0.2',
    lubrication: 'dry',
    sheet: `${at}`,
    Where: `Frame ${at % 7}; ${odd[at % odd.length]}`,
    Note: odd[(at + 3) % odd.length] ?? '',
  };
}

async function openList(count: number) {
  const opened = await openTask(smallPlan(), '#/callouts');
  const proposals: Proposal[] = [
    put('calloutLists', { ...calloutList('list', opened.taskId), name: 'Deck', columns }),
    ...Array.from({ length: count }, (_, at): Proposal =>
      put('callouts', { ...callout(`row-${at}`, 'list', cellsOf(at)), position: at }),
    ),
  ];
  await opened.store.commit({ action: 'add-callouts', title: 'Add list', proposals });
  await expect.element(page.getByText(`${count} of ${count}`, { exact: true })).toBeVisible();
  return opened;
}

/** What the grid puts on the clipboard, and then the paste of the same. */
function copied(): string {
  const data = new DataTransfer();
  const grid = page.getByRole('grid', { name: 'Callouts' }).element();
  grid.dispatchEvent(new ClipboardEvent('copy', { clipboardData: data, bubbles: true, cancelable: true }));
  return data.getData('text/plain');
}

it('copies a block of 50 rows and 10 columns, and takes it back with every cell as it was typed', async () => {
  const { store } = await openList(50);
  await userEvent.click(row(/^C-0 /));
  await userEvent.keyboard('{Control>}a{/Control}');
  const text = copied();
  const data = new DataTransfer();
  data.setData('text/plain', text);
  page
    .getByRole('grid', { name: 'Callouts' })
    .element()
    .dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }));
  await expect.element(page.getByText('judged, not kept')).toBeVisible();
  await expectOneAct(store, 'Add list “Pasted rows”', tables, () =>
    userEvent.click(button(/^Keep (as a list of 50 callouts|the \d+ that can be read)$/)),
  );
  const lists = await rowsOf(store, 'calloutLists');
  const pasted = [...lists.values()].find(({ name }) => name === 'Pasted rows');
  expect(pasted?.columns).toEqual(columns);
  const rows = [...(await rowsOf(store, 'callouts')).values()].filter(({ list }) => list === pasted?.id);
  rows.sort((a, b) => a.position - b.position);
  const equal = rows.flatMap(({ cells }, at) => columns.filter((name) => cells[name] === cellsOf(at)[name]));
  expect(rows.map(({ cells }) => cells)).toEqual(rows.map((_, at) => cellsOf(at)));
  expect(equal).toHaveLength(500);
});

it('keeps a list that as-run records are judged against, says which, and lets it go with all of it once nothing refers to it', async () => {
  const { store, taskId } = await openList(3);
  const asRun = {
    ...{ id: 'run', rev: 0, task: taskId, name: 'Deck, 3 May', columns: ['callout', 'final'], person: 'A. Tester' },
    callouts: 'list',
  };
  await store.commit({ action: 'add-records', title: 'Add records', proposals: [put('asRunLists', asRun)] });
  await userEvent.click(button('Remove list…'));
  const dialog = page.getByRole('dialog', { name: 'List “Deck” cannot be removed yet' });
  await expect.element(dialog).toHaveTextContent('in 1 list:“Deck, 3 May”');
  expect(await axeFaults()).toEqual([]);
  await userEvent.click(dialog.getByRole('button', { name: 'Keep it' }));
  expect((await rowsOf(store, 'callouts')).size).toBe(3);
  // Whoever does not come by this question is refused by the store, by name.
  const removal: Proposal[] = [{ table: 'calloutLists', remove: { id: 'list', rev: 1 } }];
  for (const { id, rev } of (await rowsOf(store, 'callouts')).values())
    removal.push({ table: 'callouts', remove: { id, rev } });
  await expect(store.commit({ action: 'remove', title: 'Remove', proposals: removal })).rejects.toThrow(
    /list of callouts Deck: it cannot be removed while list of as-run records Deck, 3 May refers to it/,
  );
  expect((await rowsOf(store, 'callouts')).size).toBe(3);

  const { callouts: _against, ...alone } = asRun;
  await store.commit({
    action: 'edit-records',
    title: 'Judge alone',
    proposals: [put('asRunLists', { ...alone, rev: 1 })],
  });
  await userEvent.click(button('Remove list…'));
  await expectOneAct(store, 'Remove list “Deck”', tables, () => userEvent.click(button('Remove list “Deck”')));
  await expect.element(heading('No callouts yet')).toBeVisible();
});

it('says of a list whose judgement cannot be read that it cannot, and does not show the others as all there is', async () => {
  await openList(3);
  const desk = keptDesk();
  const read = vi.spyOn(desk, 'judgedRows').mockResolvedValue([]);
  window.location.hash = '#/findings';
  await expect.element(page.getByText(/Deck.*Only 0 of 3 rows could be read/)).toBeVisible();
  read.mockRejectedValue(new Error('the worker went'));
  window.location.hash = '#/callouts';
  await userEvent.click(button('Report…'));
  await expect.element(page.getByRole('alert')).toHaveTextContent('The judgement cannot be gathered: the worker went');
  read.mockRestore();
});
