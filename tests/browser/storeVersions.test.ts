/** Databases of earlier versions, opened by this one; and what versions 2 to 6 brought. */
import { describe, expect, it } from 'vitest';
import { knownVersion, nativeVersion } from '../../renderer/store/copy/workingCopy.ts';
import { RefusedError } from '../../renderer/engine/errors.ts';
import type { Proposal } from '../../renderer/store/store.ts';
import { emptyHash } from '../../shared-types/journal.ts';
import type { AnyRecord, RecordOf } from '../../shared-types/records/index.ts';
import { recordsVersion } from '../../shared-types/records/index.ts';
import { canonicalJson } from '../../shared-types/canonicalJson.ts';
import { sha256 } from '../../renderer/store/sha256.ts';
import { memoryJournal } from '../support/memoryJournal.ts';
import type { MemoryJournal } from '../support/memoryJournal.ts';
import {
  callout,
  calloutList,
  digestsIn,
  discrepancy,
  fastener,
  frozen,
  keptJournal,
  openWindowOn,
  outing,
  put,
  rawDatabase,
  remarks,
  remove,
  rowsOf,
  shelf,
  step,
  task,
} from './support/keptStore.ts';

/** The tables of version 1 as they were shipped, as the browser itself knows them. */
const versionOne: Record<string, [path: string | string[], many?: boolean][]> = {
  shelves: [],
  items: [[['shelf', 'code']], ['code']],
  sites: [],
  interfaces: [[['site', 'code']], ['fastener']],
  tasks: [['site'], ['shelves', true]],
  outings: [[['task', 'code']], ['bags', true]],
  steps: [[['task', 'code']], ['interface']],
  results: [],
  preferences: [],
  meta: [],
};

/** What version 2 had beside them. */
const versionTwo: typeof versionOne = {
  ...versionOne,
  notes: [['task']],
  calloutLists: [['task']],
  callouts: [['list']],
  asRunLists: [['task'], ['callouts']],
  asRuns: [['list']],
};

const keptThen: [table: string, record: AnyRecord][] = [
  ['shelves', { ...shelf('crew', 'Crëw ½'), rev: 1 }],
  ['items', { ...fastener('F-1', 'crew'), rev: 1 }],
  ['sites', { id: 'panel', rev: 1, code: 'PANEL' }],
  ['interfaces', { id: 'a', rev: 1, site: 'panel', code: 'A', kind: 'fastener', fastener: 'F-1', count: 4 }],
  ['tasks', { ...task('job', ['crew']), rev: 1 }],
  ['outings', { ...outing('one', 'job'), rev: 1 }],
  ['steps', { ...step('s', 'job', { fastener: 'F-1', count: 4 }), rev: 1 }],
];

const keptByTwo: typeof keptThen = [
  ...keptThen,
  ['calloutLists', { ...calloutList('list', 'job'), rev: 1 }],
  ['callouts', { ...callout('c-1', 'list', { id: 'C-1', thread: '3/8-24' }), rev: 1 }],
];

/** A journal and a database as the program of an earlier version left them. */
async function earlierJournal(
  version: 1 | 2 | 3 | 4 | 5,
  tables: typeof versionOne,
  kept: typeof keptThen,
): Promise<MemoryJournal> {
  const journal = memoryJournal();
  let prevHash = emptyHash;
  for (const [at, [table, after]] of kept.entries()) {
    const changes = [{ table, id: after.id, before: null, after }] as never;
    const body = {
      ...{
        seq: at + 1,
        deviceId: 'a'.repeat(32),
        utc: '2026-11-20T08:00:00.000Z',
        tzOffset: 0,
        user: '',
        action: 'add',
      },
      ...{ payload: { title: 'Add', key: crypto.randomUUID(), undoable: true, changes }, schema: version, prevHash },
    };
    prevHash = await sha256(canonicalJson(body));
    journal.entries.push({ ...body, hash: prevHash });
  }
  await new Promise<void>((resolve, reject) => {
    const request = indexedDB.open(journal.database(), nativeVersion(version));
    request.addEventListener('upgradeneeded', () => {
      for (const [table, indexes] of Object.entries(tables)) {
        const made = request.result.createObjectStore(table, { keyPath: table === 'meta' ? 'key' : 'id' });
        for (const [path, many = false] of indexes)
          made.createIndex(Array.isArray(path) ? `[${path.join('+')}]` : path, path, { multiEntry: many });
      }
    });
    request.addEventListener('success', () => {
      const database = request.result;
      const transaction = database.transaction(Object.keys(tables), 'readwrite');
      for (const [table, record] of kept) transaction.objectStore(table).put(record);
      transaction.objectStore('meta').put({ key: 'head', seq: kept.length, hash: prevHash });
      transaction.addEventListener('complete', () => (database.close(), resolve()));
    });
    request.addEventListener('error', () => reject(request.error ?? new Error('not made')));
  });
  return journal;
}

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

/** As version 3 left them: texts of its own at the interface and at the step. */
const keptByThree: typeof keptThen = keptByTwo.map(([table, record]): (typeof keptThen)[number] =>
  table === 'interfaces' || table === 'steps'
    ? [table, { ...record, watchOuts: ['Wet plinth.', 'Sharp edge.'] } as AnyRecord]
    : [table, record],
);

const watchOut: RecordOf<'watchOuts'> = {
  ...{ id: 'w', rev: 0, text: 'The stud seizes.' },
  ties: [
    { to: 'interface', interface: 'a', called: 'A of PANEL' },
    { to: 'item', shelf: 'crew', code: 'F-1', called: 'F-1' },
    { to: 'step', step: 's', called: 'step s of job' },
  ],
  learned: { in: 'as-run', task: 'job', record: 'r-1', words: 'B-03', on: '2026-11-25', person: 'Q.' },
};

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

const keptByFour: typeof keptThen = [...keptByThree, ['watchOuts', { ...watchOut, rev: 1 }]];

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

/** As version 5 left them: a bag, lines laid by hand, a tool found out, and what was frozen. */
async function keptByFive(): Promise<typeof keptThen> {
  const bag = {
    id: 'L',
    rev: 1,
    shelf: 'crew',
    code: 'L',
    kind: 'bag',
    retired: false,
    parts: 1,
    kit: 'field',
    pockets: 2,
  };
  const laid = { item: 'F-1', bag: 'L', to: 'L', xMm: 10, yMm: 20, turned: false };
  const foundOut = [{ serial: 'A 17', foundOut: '2026-05-02', person: 'Q.', at: '2026-11-26T08:00:00.000+01:00' }];
  return [
    ...keptByFour.map(([table, record]): (typeof keptThen)[number] =>
      table === 'outings' ? [table, { ...record, bagMap: [laid] } as AnyRecord] : [table, record],
    ),
    ['items', bag as AnyRecord],
    ['asRunLists', { ...calloutList('run', 'job'), rev: 1, foundOut } as AnyRecord],
    ['revisions', { ...(await frozen('r', 'job')), rev: 1 }],
  ];
}

describe('a database of version 5', () => {
  it('is brought up with all it holds, and takes names of pockets, places in them, and the day that a tool had', async () => {
    const kept = await keptByFive();
    const tables = { ...versionTwo, watchOuts: [], revisions: [], events: [], discrepancies: [], arrivals: [] };
    const five: typeof versionOne = {
      ...tables,
      items: [[['shelf', 'code']], ['code'], ['tag']],
      revisions: [[['task', 'number']]],
      events: [[['revision', 'no']]],
      discrepancies: [[['task', 'number']], ['revision']],
    };
    const journal = await earlierJournal(5, five, kept);
    const { store } = await openWindowOn(journal);
    for (const [table, record] of kept) expect((await rowsOf(store, table as 'items')).get(record.id)).toEqual(record);
    const bag = (await rowsOf(store, 'items')).get('L');
    const way = [...(await rowsOf(store, 'outings')).values()][0];
    const list = (await rowsOf(store, 'asRunLists')).get('run');
    if (bag === undefined || way === undefined || list === undefined) throw new Error('something is gone');
    const laid = [{ item: 'F-1', bag: 'L', to: 'L', xMm: 5, yMm: 5, turned: true, pocket: 'lid' }];
    const foundOut = (list.foundOut ?? []).map((one) => ({ ...one, due: '2026-12-31' }));
    await store.commit(
      act(
        put('items', { ...bag, pocketNames: 'lid; main' } as typeof bag),
        put('outings', { ...way, bagMap: laid }),
        put('asRunLists', { ...list, foundOut }),
      ),
    );
    expect(journal.entries.at(-1)?.schema).toBe(recordsVersion);
    await store.rebuildFromJournal();
    expect((await rowsOf(store, 'items')).get('L')).toMatchObject({ pockets: 2, pocketNames: 'lid; main' });
    expect([...(await rowsOf(store, 'outings')).values()][0]?.bagMap).toEqual(laid);
    expect((await rowsOf(store, 'asRunLists')).get('run')?.foundOut).toEqual(foundOut);
    const again = (await rowsOf(store, 'items')).get('L');
    expect(
      (await refusalOf(store.commit(act(put('items', { ...again, pocketNames: 'lid; lid' } as never))))).field,
    ).toMatch(/items\.pocketNames/);
    store.close();
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
