/** The window with a crew's stock, or with a task, on a store of the test's own. */
// The order of the layers is said before anything has one.
import '../../../renderer/styles/layers.css';
import { expect } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { RecordOf, TableName } from '../../../shared-types/records/index.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import { recordsOfPlan } from '../../../renderer/engine/records/recordsOfPlan.ts';
import { inOrder } from '../../../renderer/engine/records/inOrder.ts';
import type { Proposal, Store } from '../../../renderer/store/store.ts';
import { smallPlan } from '../../support/smallPlan.ts';
import { rowsOf } from './keptStore.ts';
import { openWindow } from './openWindow.tsx';
import type { OpenWindowOptions } from './openWindow.tsx';

export const button = (name: string | RegExp) => page.getByRole('button', { name, exact: true });
export const field = (name: string | RegExp) => page.getByLabelText(name, { exact: true });
export const heading = (name: string | RegExp) => page.getByRole('heading', { name, exact: true });
export const save = () => userEvent.keyboard('{Control>}{Enter}{/Control}');
export const row = (name: string | RegExp) => page.getByRole('row', { name });

export async function chooseIn(name: string, option: string): Promise<void> {
  await userEvent.selectOptions(field(name), option);
}

/** A shelf with the stock of the small plan, and nothing else. */
export async function openStock() {
  localStorage.clear();
  const opened = await openWindow();
  const { source } = planFrom({ ...smallPlan(), outings: [], steps: [] });
  const { shelf, items } = recordsOfPlan(source, {
    shelfName: 'Crew case',
    taskNamed: 'none',
    newId: opened.store.newId,
  });
  const proposals: Proposal[] = [
    { table: 'shelves', put: shelf },
    ...items.map((put): Proposal => ({ table: 'items', put })),
  ];
  await opened.store.commit({ action: 'import', title: 'Stock', proposals, undoable: false });
  return opened;
}

/** The task of a plan, in hand, at the place of an address. */
export async function openTask(plan: unknown, address: string, options: OpenWindowOptions = {}) {
  localStorage.clear();
  const opened = await openWindow(options);
  const atHand = await opened.bringIn(JSON.stringify(plan));
  window.location.hash = address;
  return { ...opened, taskId: atHand.id };
}

export async function byCode<T extends TableName>(store: Store, table: T): Promise<Map<string, RecordOf<T>>> {
  const rows = await rowsOf(store, table);
  return new Map([...rows.values()].map((record) => ['code' in record ? record.code : record.id, record]));
}

export async function stepCodes(store: Store): Promise<string[]> {
  return inOrder([...(await rowsOf(store, 'steps')).values()]).map(({ code }) => code);
}

/** What a table holds, without revisions: two states of it are compared by this. */
async function content(store: Store, tables: readonly TableName[]): Promise<string> {
  const all = await Promise.all(tables.map(async (name) => [name, [...(await rowsOf(store, name)).values()]] as const));
  return JSON.stringify(
    all.map(([name, rows]) => [
      name,
      rows.map(({ rev: _rev, ...rest }) => rest).toSorted((a, b) => (a.id < b.id ? -1 : 1)),
    ]),
    (_key, value: unknown) =>
      typeof value === 'object' && value !== null && !Array.isArray(value)
        ? Object.fromEntries(Object.entries(value).toSorted(([a], [b]) => (a < b ? -1 : 1)))
        : value,
  );
}

/** One deed is one act with its title; Undo takes all of it back, and Redo brings all of it again. */
export async function expectOneAct(
  store: Store,
  title: string,
  tables: readonly TableName[],
  deed: () => Promise<void>,
): Promise<void> {
  const before = await content(store, tables);
  const acts = (): number => store.history().recent.filter(({ undoable }) => undoable).length;
  const earlier = acts();
  await deed();
  await expect.poll(() => store.history().undo?.title).toBe(title);
  expect(acts()).toBe(earlier + 1);
  const after = await content(store, tables);
  expect(after).not.toBe(before);
  expect((await store.undo()).title).toContain(title);
  expect(await content(store, tables)).toBe(before);
  await store.redo();
  expect(await content(store, tables)).toBe(after);
}
