import { describe, expect, it } from 'vitest';
import { ConflictError } from '../../renderer/store/store.ts';
import type { Store } from '../../renderer/store/store.ts';
import { keptJournal, openWindowOn, put, rawDatabase, rowsOf, shelf } from './support/keptStore.ts';

describe('two windows that count up one number, 300 times each', () => {
  const increments = 300;

  /** What a person does: reads what is shown, adds one, saves; and decides anew where it was changed meanwhile. */
  async function increment(store: Store, stored: () => Promise<number>): Promise<number> {
    for (let conflicts = 0; ; conflicts += 1) {
      const now = store.table('shelves').state().rows.get('counter');
      const { name, rev } = now ?? shelf('counter', '0');
      const next = put('shelves', { id: 'counter', rev, name: String(Number(name) + 1) });
      try {
        await store.commit({ action: 'count', title: 'Count', proposals: [next] });
        return conflicts;
      } catch (error) {
        if (!(error instanceof ConflictError)) throw error;
        // The conflict brought the kept version; the list comes to it as the hint arrives.
        const kept = Number((error.conflicts[0]?.kept as { name: string } | null)?.name ?? 0);
        await expect
          .poll(
            async () =>
              Math.max(kept, await stored()) <= Number(store.table('shelves').state().rows.get('counter')?.name ?? 0),
          )
          .toBe(true);
      }
    }
  }

  const storedIn = (name: string) => async (): Promise<number> => {
    const database = await rawDatabase(name);
    const row = await new Promise<{ name: string } | undefined>((resolve, reject) => {
      const request = database.transaction('shelves').objectStore('shelves').get('counter');
      request.addEventListener('success', () => resolve(request.result));
      request.addEventListener('error', () => reject(request.error ?? new Error('not read')));
    });
    database.close();
    return Number(row?.name ?? 0);
  };

  it('come to 600 with the right to write handed to and fro', async () => {
    const journal = await keptJournal(0);
    const windows = [await openWindowOn(journal), await openWindowOn(journal)];
    for (const { store } of windows) await rowsOf(store, 'shelves');
    for (let at = 0; at < increments; at += 1) {
      for (const { store } of windows) {
        await store.writeHere();
        await increment(store, storedIn(journal.database()));
      }
    }
    expect(await storedIn(journal.database())()).toBe(2 * increments);
    expect(journal.entries).toHaveLength(1 + 2 * increments);
    expect(journal.entries.at(-1)?.payload.changes[0]?.after).toMatchObject({ name: '600', rev: 600 });
    for (const { store } of windows) store.close();
  });

  it('come to 600 with both believing that they write', async () => {
    const journal = await keptJournal(0);
    journal.faults.anyoneWrites = true;
    const windows = [await openWindowOn(journal), await openWindowOn(journal)];
    for (const { store } of windows) await rowsOf(store, 'shelves');
    const stored = storedIn(journal.database());
    const conflicts = await Promise.all(
      windows.map(async ({ store }) => {
        let met = 0;
        for (let at = 0; at < increments; at += 1) met += await increment(store, stored);
        return met;
      }),
    );
    expect(await stored()).toBe(2 * increments);
    expect(journal.entries).toHaveLength(1 + 2 * increments);
    // They did get in each other's way, or this shows nothing.
    expect(conflicts.reduce((sum, met) => sum + met, 0)).toBeGreaterThan(0);
    for (const { store } of windows) store.close();
    const last = await openWindowOn(journal);
    expect((await rowsOf(last.store, 'shelves')).get('counter')).toMatchObject({ name: '600', rev: 600 });
    last.store.close();
  });
});

describe('the same content written in two windows from one revision', () => {
  it('is kept once, and the other is told: a count that two raise by one must not end one short', async () => {
    const journal = await keptJournal(0);
    journal.faults.anyoneWrites = true;
    const windows = [await openWindowOn(journal), await openWindowOn(journal)];
    for (let rev = 1; rev <= 20; rev += 1) {
      const proposals = [put('shelves', { ...shelf('crew', `count ${rev}`), rev })];
      const answers = await Promise.allSettled(
        windows.map(({ store }) => store.commit({ action: 'count', title: 'Count', proposals })),
      );
      expect(answers.map(({ status }) => status).toSorted()).toEqual(['fulfilled', 'rejected']);
      const refused = answers.find((answer) => answer.status === 'rejected');
      expect(refused?.reason).toBeInstanceOf(ConflictError);
    }
    expect(journal.entries).toHaveLength(21);
    for (const { store } of windows) store.close();
  });
});
