/**
 * Large changes broken off in the middle: an import of many records, a restore, a file with everything. Whatever was left is the state from
 * before or the one from after, whole. `VITE_KILLED_ACTS=20` breaks each off at so many points, `VITE_KILLED_SEED` repeats a run.
 */
import { describe, expect, it } from 'vitest';
import { intoHere } from '../../renderer/engine/everything/intoHere.ts';
import { everythingAct } from '../../renderer/features/snapshots/everythingIn.ts';
import { manyFrom } from '../../renderer/store/copy/arrivals.ts';
import { createStore } from '../../renderer/store/createStore.ts';
import { restoring } from '../../renderer/store/recovery/restore.ts';
import type { Act, Store } from '../../renderer/store/store.ts';
import { dice } from '../reference/dice.ts';
import type { MemoryJournal } from '../support/memoryJournal.ts';
import { killable } from './support/killable.ts';
import type { Death } from './support/killable.ts';
import {
  contentDigests,
  deleteDatabase,
  fastener,
  keptJournal,
  openWindowOn,
  outing,
  put,
  remove,
  step,
  task,
} from './support/keptStore.ts';

const points = Number(import.meta.env['VITE_KILLED_ACTS'] ?? 3);
const seed = Number(import.meta.env['VITE_KILLED_SEED'] ?? 4711);

const edit = (...proposals: Act['proposals']): Act => ({ action: 'edit', title: 'Edit', proposals });

/** A journal with work in it, and the change that is to be broken off. */
type Prepared = { journal: MemoryJournal; act: (store: Store) => Promise<Act> };

const prepared: [what: string, prepare: () => Promise<Prepared>][] = [
  [
    'an import of many records',
    async () => {
      const items = Array.from({ length: manyFrom + 50 }, (_, at) => put('items', fastener(`N-${at}`, 'crew')));
      return { journal: await keptJournal(2), act: async () => ({ ...edit(...items), action: 'import' }) };
    },
  ],
  [
    'a restore',
    async () => {
      const journal = await keptJournal(5);
      const { store } = await openWindowOn(journal);
      await store.commit(
        edit(put('tasks', task('job', ['crew'])), put('outings', outing('one', 'job')), put('steps', step('s', 'job'))),
      );
      const earlier = await store.readAll();
      await store.commit(
        edit(
          remove('items', { id: 'F-1', rev: 1 }),
          put('items', { ...fastener('F-2', 'crew'), rev: 1, notes: 'since' }),
          put('items', fastener('F-9', 'crew')),
          remove('steps', { id: 's', rev: 1 }),
        ),
      );
      store.close();
      return {
        journal,
        act: async (open) => ({
          ...{ action: 'restore', title: 'Restore' },
          proposals: (await restoring(await open.readAll(), earlier)).proposals,
        }),
      };
    },
  ],
  [
    'a file with everything',
    async () => {
      const elsewhere = await keptJournal(9);
      const { store } = await openWindowOn(elsewhere);
      const file = await store.readAll();
      store.close();
      await deleteDatabase(elsewhere.database());
      return {
        journal: await keptJournal(3),
        act: async (open) => {
          const { puts, lasts } = intoHere(await open.readAll(), file, { differing: 'take' });
          return everythingAct(puts, lasts, 'all.json');
        },
      };
    },
  ],
];

/** Opens a window, begins the act, and dies at the given step of it. @returns how many steps the act came to */
async function beginAndDie({ journal, act }: Prepared, death: Death | null): Promise<number> {
  const watched = killable(journal.window());
  const before = createStore({ journal: watched.journal, makeCopy: watched.makeCopy });
  await before.open();
  const opening = watched.steps.length;
  before.close();
  const doomed = killable(journal.window(), death === null ? null : { ...death, at: opening + death.at });
  const store = createStore({ journal: doomed.journal, makeCopy: doomed.makeCopy });
  await store.open();
  const begun = doomed.steps.length;
  const done = act(store)
    .then((one) => store.commit(one))
    .catch(() => undefined)
    // What many records were laid down for is taken in behind the saving.
    .then(() => (death === null ? new Promise((resolve) => setTimeout(resolve, 1500)) : undefined));
  await Promise.race([doomed.died, done]);
  store.close();
  journal.endLease('its window is gone');
  return doomed.steps.length - begun;
}

describe(`a large change, killed in the middle (seed ${seed})`, () => {
  it.each(prepared)(
    '%s ends with the state from before or the one from after',
    async (_what, prepare) => {
      const chance = dice(seed);
      const whole = await prepare();
      const before = await contentDigests(whole.journal.database());
      const steps = await beginAndDie(whole, null);
      const { store: settled } = await openWindowOn(whole.journal);
      settled.close();
      const after = await contentDigests(whole.journal.database());
      expect(after).not.toEqual(before);
      await deleteDatabase(whole.journal.database());
      const ends = new Set<string>();
      for (let point = 0; point < points; point += 1) {
        const death: Death = {
          // The first steps and the last ones in any case: before anything is kept, and once all of it is.
          at: point === 0 ? 1 : point === 1 ? steps : chance.whole(1, steps),
          when: point === 0 ? 'before' : point === 1 ? 'after' : chance.whole(0, 1) === 0 ? 'before' : 'after',
        };
        const one = await prepare();
        const base = await contentDigests(one.journal.database());
        expect(base).toEqual(before);
        await beginAndDie(one, death);
        const { store } = await openWindowOn(one.journal);
        store.close();
        const now = await contentDigests(one.journal.database());
        const where = `killed ${death.when} step ${death.at} of ${steps}`;
        expect([before, after], where).toContainEqual(now);
        ends.add(JSON.stringify(now));
        await deleteDatabase(one.journal.database());
      }
      // Both must have come about, or the kills met nothing.
      expect(ends.size).toBe(2);
    },
    600_000,
  );
});
