import { describe, expect, it } from 'vitest';
import type { Item } from '../../shared-types/records/item.ts';
import type { Proposal, Store } from '../../renderer/store/store.ts';
import { dice } from '../reference/dice.ts';
import { memoryJournal } from '../support/memoryJournal.ts';
import {
  contentDigests,
  fastener,
  openWindowOn,
  outing,
  put,
  remove,
  rowsOf,
  shelf,
  step,
  task,
} from './support/keptStore.ts';

const seed = Number(import.meta.env['VITE_UNDO_SEED'] ?? 7);
const edits = 200;

/** The items as they are now, in an order that does not depend on when they came. */
async function itemsNow(store: Store): Promise<Item[]> {
  return [...(await rowsOf(store, 'items')).values()].toSorted((a, b) => (a.id < b.id ? -1 : 1));
}

/** One edit of each sort that there is: single, bulk, paste, import, rename across tables, removal. */
async function editOf(store: Store, n: number, roll: (most: number) => number): Promise<Proposal[]> {
  const items = await itemsNow(store);
  const some = (most: number): Item[] => {
    const from = roll(Math.max(1, items.length));
    return items.slice(from, from + 1 + roll(most));
  };
  const changed = (of: Item[], more: object): Proposal[] =>
    of.map((item) => put('items', { ...item, ...more } as Item));
  const [one] = some(1);
  switch (items.length < 5 ? 4 : roll(8)) {
    case 0:
      return changed(some(1), { name: `Named ${n}` });
    case 1:
      return changed(some(20), { keptAt: `tray ${n}` });
    case 2:
      return changed(some(20), { retired: n % 2 === 0, keptAt: `wall ${n}` });
    case 3:
      return some(10).map((item, at) => put('items', { ...item, notes: `pasted ${n}.${at}`, onHand: at } as Item));
    case 4:
      return Array.from({ length: 5 + roll(30) }, (_, at) => put('items', fastener(`I-${n}-${at}`, 'crew')));
    case 5:
      // What a step names may not go.
      return some(4)
        .filter(({ code }) => !code.startsWith('C-'))
        .map((item) => remove('items', item));
    case 6: {
      const steps = [...(await rowsOf(store, 'steps')).values()];
      const code = `C-${n}`;
      return one === undefined
        ? []
        : [...changed([one], { code }), ...steps.map((of) => put('steps', { ...of, fastener: code }))];
    }
    default: {
      const id = `step-${roll(3)}`;
      const at = (await rowsOf(store, 'steps')).get(id);
      return at === undefined
        ? [put('steps', step(id, 'job'))]
        : roll(2) === 0
          ? [remove('steps', at)]
          : [put('steps', { ...at, name: `Step of ${n}` })];
    }
  }
}

describe('undo and redo', () => {
  it('go back and forth over 200 edits of every sort, and the state is the same by its hash each time', async () => {
    const journal = memoryJournal();
    const window = await openWindowOn(journal);
    const { store } = window;
    const random = dice(seed);
    const roll = (most: number): number => random.whole(0, most - 1);
    const first = [
      put('shelves', shelf('crew')),
      put('tasks', task('job', ['crew'])),
      put('outings', outing('one', 'job')),
    ];
    await store.commit({ action: 'add', title: 'Begin', proposals: first, undoable: false });
    const hash = async (): Promise<string> => JSON.stringify(await contentDigests(window.copy().name));
    const states = [await hash()];
    for (let n = 1; n <= edits; n += 1) {
      const proposals = await editOf(store, n, roll);
      if (proposals.length === 0) proposals.push(put('items', fastener(`I-${n}`, 'crew')));
      await store.commit({ action: 'edit', title: `Edit ${n}`, proposals });
      if (n % 40 === 0) states.push(await hash());
    }
    expect(new Set(states).size).toBe(edits / 40 + 1);
    for (let n = edits; n > 0; n -= 1) {
      if (n % 40 === 0) expect([n, await hash()]).toEqual([n, states[n / 40]]);
      expect((await store.undo()).title).toContain(`${n}`);
    }
    expect(await hash()).toBe(states[0]);
    expect(store.history().undo).toBeNull();
    for (let n = 1; n <= edits; n += 1) {
      await store.redo();
      if (n % 40 === 0) expect([n, await hash()]).toEqual([n, states[n / 40]]);
    }
    expect(store.history().redo).toBeNull();
    store.close();
  });
});
