import { describe, expect, it } from 'vitest';
import type { Item } from '../../shared-types/records/item.ts';
import type { WatchOut } from '../../shared-types/records/watchOut.ts';
import { cellsOfItem } from '../../renderer/engine/catalog/index.ts';
import { inOrder } from '../../renderer/engine/records/inOrder.ts';
import { usualSteps } from '../../renderer/engine/usualSteps/index.ts';
import { bulkAct, editAct, mergeAct, removeAct } from '../../renderer/features/catalog/acts.ts';
import { fieldAct, fieldChanges, fieldsForAll } from '../../renderer/features/catalog/bulk/fieldChanges.ts';
import { pasteAct, pastedChanges } from '../../renderer/features/catalog/cells/pastedChanges.ts';
import { columnsOf } from '../../renderer/features/catalog/columns.ts';
import { bringInAct, keptItems } from '../../renderer/features/catalog/exchange/itemRows.ts';
import { usageCount, usageOf } from '../../renderer/features/catalog/usage.ts';
import { addInterface, editInterface, removeInterface } from '../../renderer/features/sites/siteActs.ts';
import { addSteps, freshCodes } from '../../renderer/features/steps/addSteps.ts';
import { moveStepsBy, moveStepsTo } from '../../renderer/features/steps/moveSteps.ts';
import { editStep, removeStep } from '../../renderer/features/steps/stepActs.ts';
import {
  addWatchOut,
  bringBackWatchOut,
  editWatchOut,
  retireWatchOut,
} from '../../renderer/features/watchOuts/watchOutActs.ts';
import type { Act, Store } from '../../renderer/store/store.ts';
import { dice } from '../reference/dice.ts';
import { memoryJournal } from '../support/memoryJournal.ts';
import { contentDigests, fastener, openWindowOn, outing, put, rowsOf, shelf, task } from './support/keptStore.ts';

const seed = Number(import.meta.env['VITE_UNDO_SEED'] ?? 7);
const edits = 200;
/** The state is compared after every so many of them; with 1, after each. */
const every = Number(import.meta.env['VITE_UNDO_EVERY'] ?? 8);

/** The tables as they are now; lists in an order that does not depend on when their records came. */
async function now(store: Store) {
  const [items, steps, outings, tasks, interfaces, shelves, watchOuts] = await Promise.all(
    (['items', 'steps', 'outings', 'tasks', 'interfaces', 'shelves', 'watchOuts'] as const).map((name) =>
      rowsOf(store, name),
    ) as never as [
      Promise<ReadonlyMap<string, Item>>,
      ReturnType<typeof rowsOf<'steps'>>,
      ReturnType<typeof rowsOf<'outings'>>,
      ReturnType<typeof rowsOf<'tasks'>>,
      ReturnType<typeof rowsOf<'interfaces'>>,
      ReturnType<typeof rowsOf<'shelves'>>,
      ReturnType<typeof rowsOf<'watchOuts'>>,
    ],
  );
  const sorted = <R extends { id: string }>(rows: ReadonlyMap<string, R>): R[] =>
    [...rows.values()].toSorted((a, b) => (a.id < b.id ? -1 : 1));
  return {
    holders: { items, steps, outings, tasks, interfaces },
    ...{ shelves, items: sorted(items), interfaces: sorted(interfaces), watchOuts: sorted(watchOuts) },
    rows: { steps: inOrder([...steps.values()]), outings: inOrder([...outings.values()]) },
  };
}

type Now = Awaited<ReturnType<typeof now>>;

interface Asked {
  now: Now;
  n: number;
  roll: (most: number) => number;
  newId: () => string;
}

const pick = <T>(of: readonly T[], { roll }: Asked): T | undefined => of[roll(Math.max(1, of.length))];
const run = (x: Asked, most: number): Item[] => {
  const from = x.roll(Math.max(1, x.now.items.length));
  return x.now.items.slice(from, from + 1 + x.roll(most));
};
const taken = (x: Asked, most: number) => ({
  ids: new Set(Array.from({ length: 1 + x.roll(most) }, () => pick(x.now.rows.steps, x)?.id ?? '')),
  ...{ number: 1, where: `in edit ${x.n}` },
});

/** Every sort of edit, by the very acts that the screens make; null where there is nothing of its sort to do just then. */
const sorts: Record<string, (x: Asked) => Act | null | Promise<Act | null>> = {
  edit: (x) => {
    const one = pick(x.now.items, x);
    return one === undefined
      ? null
      : editAct(one, { ...one, name: `Named ${x.n}` }, usageOf(one, x.now.holders), x.now.watchOuts);
  },
  rename: (x) => {
    const one = pick(x.now.items, x);
    return one === undefined
      ? null
      : editAct(one, { ...one, code: `C-${x.n}` }, usageOf(one, x.now.holders), x.now.watchOuts);
  },
  bulk: (x) => bulkAct(run(x, 20), { field: 'keptAt', to: `tray ${x.n}` }),
  retire: (x) => bulkAct(run(x, 9), { field: 'retired', to: x.n % 2 === 0 }),
  field: (x) => {
    const items = run(x, 20);
    const field = fieldsForAll(items).find(({ column }) => column.name === 'notes');
    return field === undefined ? null : fieldAct(field, fieldChanges(items, field, `set ${x.n}`));
  },
  paste: (x) => {
    const items = x.now.items;
    const at = pick(items, x);
    if (at === undefined) return null;
    const block = { fromId: at.id, fromColumn: 'name', toId: at.id, toColumn: 'name' };
    const cells = Array.from({ length: 1 + x.roll(8) }, (_, line) => [`pasted ${x.n}.${line}`]);
    return pasteAct(pastedChanges(cells, { block, rows: items, columns: columnsOf('all', false) }));
  },
  import: async (x) => {
    const changed = run(x, 6).map((item) => ({ ...cellsOfItem(item), notes: `brought ${x.n}` }));
    const added = Array.from({ length: 3 + x.roll(20) }, (_, at) => cellsOfItem(fastener(`I-${x.n}-${at}`, 'crew')));
    const ready = [...changed, ...added].map((cells, at) => ({
      ...{ row: at + 2, key: String(at), outcome: 'add' as const },
      cells: { ...cells, shelf: 'crew' },
    }));
    const kept = await keptItems(x.now.holders.items, x.now.shelves);
    return bringInAct({ ready, kept, shelves: x.now.shelves, from: `file ${x.n}.csv`, newId: x.newId });
  },
  remove: (x) => {
    const one = x.now.items.find((item) => usageCount(usageOf(item, x.now.holders)) === 0);
    return one === undefined ? null : removeAct(one);
  },
  merge: (x) => {
    const [one, other] = run(x, 4);
    return one === undefined || other === undefined ? null : mergeAct(one, other, usageOf(other, x.now.holders));
  },
  'usual steps': (x) => {
    const at = pick(x.now.interfaces, x);
    if (at === undefined || x.now.rows.steps.length > 60) return null;
    const made = usualSteps({
      ...{
        ways: ['off', 'on'],
        order: 'thing',
        outing: 'one',
        role: 'crew',
        figures: { shares: [50], takenTo: 'bag' },
      },
      touched: [{ key: at.id, called: at.code, interface: at.id, count: at.count, fastener: '' }],
    });
    const codes = freshCodes(x.now.rows, x.now.rows.steps.at(-1)?.code ?? null, made.length);
    const steps = made.map(({ step: { fastenerMoves: _none, ...own } }, index) => ({
      ...own,
      ...{ id: x.newId(), rev: 0, task: 'job', position: 0, code: codes[index] ?? '' },
    }));
    return addSteps(x.now.rows, steps, pick(x.now.rows.steps, x)?.id ?? null, `Usual steps ${x.n}`);
  },
  'steps moved by one': (x) => moveStepsBy(x.now.rows, taken(x, 3), x.n % 2 === 0 ? 1 : -1),
  'steps moved elsewhere': (x) => {
    const to = pick(x.now.rows.steps, x);
    return to === undefined ? null : moveStepsTo(x.now.rows, taken(x, 4), { side: 'before', step: to.id });
  },
  'step edited': (x) => {
    const one = pick(x.now.rows.steps, x);
    return one === undefined
      ? null
      : editStep(x.now.rows, one, { ...one, name: `Step of ${x.n}`, code: `s${x.n}x` }, 1);
  },
  'step removed': (x) => {
    const one = pick(x.now.rows.steps, x);
    return one === undefined ? null : removeStep(x.now.rows, one, 1);
  },
  'watch-out': (x) => {
    const one = pick(x.now.watchOuts, x);
    const on = pick(x.now.items, x);
    if (one !== undefined && x.roll(3) > 0) {
      if (one.retired !== undefined) return bringBackWatchOut(one);
      return x.roll(2) === 0
        ? editWatchOut(one, { ...one, text: `Learned otherwise in ${x.n}` })
        : retireWatchOut(one, { reason: `No more since ${x.n}`, person: 'A. Tester', at: '2026-01-02T10:42:00Z' });
    }
    if (on === undefined) return null;
    const made: WatchOut = {
      ...{ id: x.newId(), rev: 0, text: `Learned in ${x.n}` },
      ties: [{ to: 'item', shelf: on.shelf, code: on.code, called: on.code }],
      learned: { in: 'said', on: '2026-01-02', person: 'A. Tester' },
    };
    return addWatchOut(made);
  },
  interface: (x) => {
    const one = pick(x.now.interfaces, x);
    const named = new Set(x.now.rows.steps.map((step) => step.interface));
    if (one !== undefined && x.roll(3) === 0) return editInterface(one, { ...one, name: `Flange of ${x.n}` });
    const free = x.now.interfaces.find(({ id }) => !named.has(id));
    if (free !== undefined && x.roll(3) === 0) return removeInterface(free);
    return addInterface({ id: x.newId(), rev: 0, site: 'rock', code: `F${x.n}`, kind: 'fastener', count: 4 });
  },
};

describe('undo and redo', () => {
  it('go back and forth over 200 edits of every sort, and the state is the same by its hash wherever it is looked at', async () => {
    const journal = memoryJournal();
    const window = await openWindowOn(journal);
    const { store } = window;
    const random = dice(seed);
    const roll = (most: number): number => random.whole(0, most - 1);
    let made = 0;
    const newId = (): string => `new-${String((made += 1)).padStart(5, '0')}`;
    const first = [
      put('shelves', shelf('crew')),
      put('sites', { id: 'rock', rev: 0, code: 'R' }),
      put('tasks', { ...task('job', ['crew']), site: 'rock' }),
      put('outings', outing('one', 'job')),
      put('interfaces', { id: 'if-1', rev: 0, site: 'rock', code: 'A', kind: 'fastener', count: 4 }),
      ...Array.from({ length: 8 }, (_, at) => put('items', fastener(`I-0-${at}`, 'crew'))),
    ];
    await store.commit({ action: 'add', title: 'Begin', proposals: first, undoable: false });
    const hash = async (): Promise<string> => JSON.stringify(await contentDigests(window.copy().name));
    const states = new Map([[0, await hash()]]);
    const looked = (n: number): boolean => n % every === 0;
    const titles: string[] = [];
    const names = Object.keys(sorts);
    const done = new Map(names.map((name) => [name, 0]));
    while (titles.length < edits) {
      const name = names[roll(names.length)] ?? '';
      const act = await sorts[name]?.({ now: await now(store), n: titles.length + 1, roll, newId });
      if (act === null || act === undefined || act.proposals.length === 0) continue;
      await store.commit(act);
      titles.push(act.title);
      done.set(name, (done.get(name) ?? 0) + 1);
      if (looked(titles.length)) states.set(titles.length, await hash());
    }
    for (const [name, times] of done) expect([name, times >= 3]).toEqual([name, true]);
    // What is compared below does differ.
    expect(new Set(states.values()).size).toBe(edits / every + 1);
    for (let n = edits; n > 0; n -= 1) {
      const undone = await store.undo();
      expect([n, undone.title]).toEqual([n, titles[n - 1]]);
      if (looked(n - 1)) expect([n, await hash()]).toEqual([n, states.get(n - 1)]);
    }
    expect(store.history().undo).toBeNull();
    for (let n = 1; n <= edits; n += 1) {
      await store.redo();
      if (looked(n)) expect([n, await hash()]).toEqual([n, states.get(n)]);
    }
    expect(store.history().redo).toBeNull();
    store.close();
  });
});
