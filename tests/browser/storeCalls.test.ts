/** How often the program around the window is asked, counted: acceptance line E13. */
import { expect, it } from 'vitest';
import { overBudget } from '../support/budgets.ts';
import type { JournalCall, MemoryJournal } from '../support/memoryJournal.ts';
import { keptJournal, openWindowOn, put, shelf } from './support/keptStore.ts';

const sum = ({ calls }: MemoryJournal): number =>
  (Object.keys(calls) as JournalCall[]).reduce((all, name) => all + calls[name], 0);

it('an act is saved, and a profile that is 1,000 entries behind is opened, with few calls of the host', async () => {
  const journal = await keptJournal(1);
  const { store } = await openWindowOn(journal);
  const before = sum(journal);
  await store.commit({ action: 'add', title: 'Add a shelf', proposals: [put('shelves', shelf('mast'))] });
  expect(overBudget('host, one act saved', sum(journal) - before)).toBeNull();
  store.close();

  const host = journal.window();
  const lease = await host.lease({ takeOver: false }, () => undefined);
  if (lease === null) throw new Error('another window has the right to write');
  const from = journal.entries.length;
  for (let at = 1; at <= 1000; at += 1) {
    const after = { ...shelf(`box-${at}`), rev: 1 };
    const changes = [{ table: 'shelves' as const, id: after.id, before: null, after }];
    const payload = { title: 'Add a shelf', key: crypto.randomUUID(), undoable: true, changes };
    await host.append({ lease: lease.id, seq: from + at, user: '', action: 'add', payload });
  }
  lease.end();
  const closed = sum(journal);
  const opened = await openWindowOn(journal);
  expect(overBudget('host, a profile opened that is 1,000 entries behind', sum(journal) - closed)).toBeNull();
  expect((await opened.store.readAll()).get('shelves')?.size).toBe(1002);
  opened.store.close();
});
