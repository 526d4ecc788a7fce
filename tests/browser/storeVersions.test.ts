/** Databases of earlier versions, opened by this one; and what versions 2 to 5 brought. */
import { describe, expect, it } from 'vitest';
import { knownVersion, nativeVersion } from '../../renderer/store/copy/workingCopy.ts';
import { RefusedError } from '../../renderer/engine/errors.ts';
import type { Proposal } from '../../renderer/store/store.ts';
import { recordsVersion } from '../../shared-types/records/index.ts';
import {
  earlierJournal,
  keptByFour,
  keptByThree,
  keptByTwo,
  keptThen,
  versionOne,
  versionTwo,
  watchOut,
} from './support/earlierVersions.ts';
import {
  callout,
  calloutList,
  digestsIn,
  discrepancy,
  frozen,
  keptJournal,
  openWindowOn,
  put,
  rawDatabase,
  remarks,
  remove,
  rowsOf,
  task,
} from './support/keptStore.ts';

const act = (...proposals: Proposal[]) => ({ action: 'edit', title: 'Edit', proposals });

describe('a database of version 1', () => {
  it('is brought up with all it holds, takes what is new, and can be built again from its journal', async () => {
    const journal = await earlierJournal(1, versionOne, keptThen);
    const { store } = await openWindowOn(journal);
    for (const [table, record] of keptThen)
      expect((await rowsOf(store, table as 'items')).get(record.id)).toEqual(record);
    expect((await rowsOf(store, 'calloutLists')).size).toBe(0);
    await store.commit(
      act(put('calloutLists', calloutList('list', 'job')), put('callouts', callout('c', 'list', { id: 'C-1' }))),
    );
    await store.undo();
    await store.redo();
    await store.rebuildFromJournal();
    expect(store.opening().kind).toBe('ready');
    expect((await rowsOf(store, 'callouts')).get('c')).toMatchObject({ cells: { id: 'C-1' } });
    expect((await rowsOf(store, 'steps')).get('s')).toMatchObject({ fastener: 'F-1' });
    store.close();
    const database = await rawDatabase(journal.database());
    expect(database.version).toBe(nativeVersion(knownVersion));
    database.close();
  });
});

describe('a database of version 2', () => {
  it('is brought up with all it holds, and its steps take what says where their torque is from', async () => {
    const journal = await earlierJournal(2, versionTwo, keptByTwo);
    const { store } = await openWindowOn(journal);
    for (const [table, record] of keptByTwo)
      expect((await rowsOf(store, table as 'items')).get(record.id)).toEqual(record);
    const before = (await rowsOf(store, 'steps')).get('s');
    if (before === undefined) throw new Error('the step is gone');
    const calloutFrom = { kind: 'callout', callout: 'c-1', id: 'C-1', condition: 'dry' } as const;
    await store.commit(act(put('steps', { ...before, calloutFrom })));
    expect((await rowsOf(store, 'steps')).get('s')?.calloutFrom).toEqual(calloutFrom);
    expect(journal.entries.at(-1)?.schema).toBe(recordsVersion);
    await store.undo();
    expect((await rowsOf(store, 'steps')).get('s')).not.toHaveProperty('calloutFrom');
    await store.redo();
    await store.rebuildFromJournal();
    expect((await rowsOf(store, 'steps')).get('s')?.calloutFrom).toEqual(calloutFrom);
    // What it was taken from may go: the step keeps what it took.
    await store.commit(act(remove('callouts', { id: 'c-1', rev: 1 })));
    expect((await rowsOf(store, 'steps')).get('s')?.calloutFrom).toEqual(calloutFrom);
    store.close();
    const database = await rawDatabase(journal.database());
    expect(database.version).toBe(nativeVersion(knownVersion));
    database.close();
  });

  it('refuses a step that says so half, or of something else', async () => {
    const journal = await earlierJournal(2, versionTwo, keptByTwo);
    const { store } = await openWindowOn(journal);
    const before = (await rowsOf(store, 'steps')).get('s');
    for (const calloutFrom of [
      { kind: 'callout', callout: 'c-1' },
      { kind: 'callout', callout: 'no key!', id: 'C-1' },
      { kind: 'handbook', table: 'torque-army-table-f1' },
      { kind: 'hearsay', id: 'C-1' },
      { kind: 'handbook', table: 'torque-army-table-f1', row: 'M12', torque: '70 lbf·ft' },
    ])
      expect((await refusalOf(store.commit(act(put('steps', { ...before, calloutFrom } as never))))).field).toMatch(
        /calloutFrom/,
      );
    store.close();
  });
});

describe('a database of version 3', () => {
  it('is brought up with all it holds, its texts with it, and takes watch-outs of their own', async () => {
    const journal = await earlierJournal(3, versionTwo, keptByThree);
    const { store } = await openWindowOn(journal);
    for (const [table, record] of keptByThree)
      expect((await rowsOf(store, table as 'items')).get(record.id)).toEqual(record);
    expect((await rowsOf(store, 'watchOuts')).size).toBe(0);
    await store.commit(act(put('watchOuts', watchOut)));
    expect(journal.entries.at(-1)?.schema).toBe(recordsVersion);
    await store.undo();
    expect((await rowsOf(store, 'watchOuts')).size).toBe(0);
    await store.redo();
    await store.rebuildFromJournal();
    expect((await rowsOf(store, 'watchOuts')).get('w')).toMatchObject({
      text: 'The stud seizes.',
      ties: watchOut.ties,
    });
    expect((await rowsOf(store, 'steps')).get('s')?.watchOuts).toEqual(['Wet plinth.', 'Sharp edge.']);
    // What it is tied to may go; what was learned stays, and says what that was called.
    await store.commit(act(remove('steps', { id: 's', rev: 1 })));
    expect((await rowsOf(store, 'watchOuts')).get('w')?.ties).toContainEqual(watchOut.ties[2]);
    store.close();
    const database = await rawDatabase(journal.database());
    expect(database.version).toBe(nativeVersion(knownVersion));
    database.close();
  });

  it('refuses a watch-out that is tied to nothing, or retired for no reason', async () => {
    const journal = await earlierJournal(3, versionTwo, keptByThree);
    const { store } = await openWindowOn(journal);
    const retired = { reason: '', person: 'Q.', at: '2026-11-26T08:00:00.000+01:00' };
    for (const [broken, field] of [
      [{ ties: [] }, /watchOuts\.ties/],
      [{ retired }, /watchOuts\.retired\.reason/],
    ] as const)
      expect((await refusalOf(store.commit(act(put('watchOuts', { ...watchOut, ...broken } as never))))).field).toMatch(
        field,
      );
    store.close();
  });
});

describe('a database of version 4', () => {
  it('is brought up with all it holds, and takes frozen manifests, what was done with them, and labels', async () => {
    const journal = await earlierJournal(4, { ...versionTwo, watchOuts: [] }, keptByFour);
    const { store } = await openWindowOn(journal);
    for (const [table, record] of keptByFour)
      expect((await rowsOf(store, table as 'items')).get(record.id)).toEqual(record);
    for (const table of ['revisions', 'events', 'discrepancies'] as const)
      expect((await rowsOf(store, table)).size).toBe(0);
    const revision = await frozen('r', 'job');
    const events = await remarks(revision, 2);
    await store.commit({ ...act(put('revisions', revision)), undoable: false });
    await store.commit({ ...act(...events.map((event) => put('events', event))), undoable: false });
    await store.commit({ ...act(put('discrepancies', discrepancy('d', 'job', 'r'))), undoable: false });
    expect(journal.entries.at(-1)?.schema).toBe(recordsVersion);
    const before = (await rowsOf(store, 'items')).get('F-1');
    if (before === undefined) throw new Error('the item is gone');
    await store.commit(act(put('items', { ...before, tag: 12 })));
    await store.rebuildFromJournal();
    expect((await rowsOf(store, 'revisions')).get('r')).toMatchObject({ number: 1, hash: revision.hash });
    expect([...(await rowsOf(store, 'events')).values()].map(({ no, hash }) => [no, hash])).toEqual(
      events.map(({ no, hash }) => [no, hash]),
    );
    expect((await rowsOf(store, 'discrepancies')).get('d')).toMatchObject({ number: 1, item: 'F-1' });
    expect((await rowsOf(store, 'items')).get('F-1')?.tag).toBe(12);
    expect((await rowsOf(store, 'watchOuts')).get('w')).toMatchObject({ text: 'The stud seizes.' });
    store.close();
    const database = await rawDatabase(journal.database());
    expect(database.version).toBe(nativeVersion(knownVersion));
    database.close();
  });
});

/** A task with a list of one callout, and what was recorded of it. */
async function listedTask() {
  const journal = await keptJournal(0);
  const { store } = await openWindowOn(journal);
  await store.commit(
    act(
      put('tasks', task('job', ['crew'])),
      put('calloutLists', calloutList('list', 'job')),
      put('callouts', callout('c-1', 'list', { ID: 'C-1', thread: '3/8-24' })),
      put('asRunLists', { ...calloutList('run', 'job'), callouts: 'list' }),
      put('asRuns', callout('r-1', 'run', { callout: 'C-1', final: '30 lbf·ft' })),
    ),
  );
  return { journal, store };
}

async function refusalOf(work: Promise<unknown>) {
  const error: unknown = await work.then(
    () => null,
    (reason: unknown) => reason,
  );
  if (!(error instanceof RefusedError)) throw new Error(`not refused: ${String(error)}`);
  return error.refusal;
}

describe('lists of callouts and of as-run records', () => {
  it('keep what they stand on: no list without its task, no row without its list, and the other way round', async () => {
    const { journal, store } = await listedTask();
    const before = journal.entries.length;
    const list = { id: 'list', rev: 1 };
    for (const [proposal, message] of [
      [put('callouts', callout('c-2', 'nowhere', { Id: 'C-2' })), /callout C-2: its list names/],
      [put('calloutLists', calloutList('other', 'nowhere')), /its task names a task that is not kept/],
      [remove('calloutLists', list), /cannot be removed while callout C-1, list of as-run records List run refer/],
      [remove('asRunLists', { id: 'run', rev: 1 }), /while as-run record/],
      [remove('tasks', { id: 'job', rev: 1 }), /while list of callouts List list/],
    ] as const)
      expect((await refusalOf(store.commit(act(proposal)))).message).toMatch(message);
    expect(journal.entries).toHaveLength(before);
    store.close();
  });

  it('refuse a row that is not whole, and keep an acceptance with reason and person', async () => {
    const { store } = await listedTask();
    const row = { ...callout('c-1', 'list', { ID: 'C-1', thread: '3/8-24' }), rev: 1 };
    const accepted = { rule: 'outside-published-band', message: 'Outside.', reason: 'Drawing note 7', person: 'Q.' };
    const at = '2026-11-26T08:00:00.000+01:00';
    const put1 = (change: object) => put('callouts', { ...row, ...change } as never);
    for (const [change, field] of [
      [{ cells: { ID: '' } }, /callouts\.cells/],
      [
        { accepted: [{ ...accepted, at, reason: '' }] },
        /callouts\.accepted\[0\]\.reason|callouts\.accepted\.0\.reason/,
      ],
      [{ accepted: [{ ...accepted, at, person: '' }] }, /person/],
      [{ accepted: [{ ...accepted, at: 'yesterday' }] }, /at/],
      [{ decision: 'conforming' }, /decision/],
    ] as const)
      expect((await refusalOf(store.commit(act(put1(change))))).field).toMatch(field);
    await store.commit(act(put1({ accepted: [{ ...accepted, at }] })));
    expect((await rowsOf(store, 'callouts')).get('c-1')?.accepted).toEqual([{ ...accepted, at }]);
    store.close();
  });

  it('take many rows as one act, and give them back with one undo', async () => {
    const { journal, store } = await listedTask();
    const digests = await digestsIn(journal.database());
    const rows = Array.from({ length: 2000 }, (_, at) => ({
      ...callout(`n-${at}`, 'big', { id: `N-${at}`, thread: '1/4-28', torqueMin: '75 lbf·in', torqueMax: '90 lbf·in' }),
      position: at,
    }));
    await store.commit(act(put('calloutLists', calloutList('big', 'job')), ...rows.map((row) => put('callouts', row))));
    expect((await rowsOf(store, 'callouts')).size).toBe(2001);
    await store.undo();
    expect((await rowsOf(store, 'callouts')).size).toBe(1);
    expect((await digestsIn(journal.database())).callouts).toEqual(digests.callouts);
    expect((await digestsIn(journal.database())).calloutLists).toEqual(digests.calloutLists);
    store.close();
  });
});
