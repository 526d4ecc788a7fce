import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../renderer/engine/errors.ts';
import { ConflictError } from '../../renderer/store/store.ts';
import type { Proposal, Store } from '../../renderer/store/store.ts';
import {
  fastener,
  keptJournal,
  openWindowOn,
  outing,
  put,
  remove,
  rowsOf,
  saveStates,
  shelf,
  step,
  task,
} from './support/keptStore.ts';

const act = (...proposals: Proposal[]) => ({ action: 'edit', title: 'Edit', proposals });

async function refusal(store: Store, ...proposals: Proposal[]) {
  const error: unknown = await store.commit(act(...proposals)).then(
    () => null,
    (reason: unknown) => reason,
  );
  if (!(error instanceof RefusedError)) throw new Error(`not refused: ${String(error)}`);
  return error.refusal;
}

async function conflict(store: Store, ...proposals: Proposal[]) {
  const error: unknown = await store.commit(act(...proposals)).then(
    () => null,
    (reason: unknown) => reason,
  );
  if (!(error instanceof ConflictError)) throw new Error(`no conflict: ${String(error)}`);
  return error.conflicts;
}

/** One shelf, three fasteners, a site with an interface, a task with an outing and two steps. */
async function keptTask() {
  const journal = await keptJournal(3);
  const { store } = await openWindowOn(journal);
  await store.commit(
    act(
      put('sites', { id: 'panel', rev: 0, code: 'PANEL' }),
      put('interfaces', { id: 'a', rev: 0, site: 'panel', code: 'A', kind: 'fastener', fastener: 'F-2', count: 4 }),
      put('tasks', { ...task('job', ['crew'], 'JOB'), site: 'panel' }),
      put('outings', outing('one', 'job')),
      put('steps', step('s1', 'job', { fastener: 'F-1', count: 2, code: '1' })),
      put('steps', step('s2', 'job', { interface: 'a', code: '2', ifFails: { step: '1', how: 'stuck' } })),
    ),
  );
  return { journal, store };
}

describe('a record’s revision', () => {
  it('is one more with each change, and one at first', async () => {
    const journal = await keptJournal(1);
    const { store } = await openWindowOn(journal);
    const items = await rowsOf(store, 'items');
    expect(items.get('F-1')?.rev).toBe(1);
    await store.commit(act(put('items', { ...fastener('F-1', 'crew'), rev: 1, notes: 'a' })));
    await store.commit(act(put('items', { ...fastener('F-1', 'crew'), rev: 2, notes: 'b' })));
    expect(store.table('items').state().rows.get('F-1')).toMatchObject({ rev: 3, notes: 'b' });
    expect(journal.entries.at(-1)?.payload.changes).toMatchObject([
      { table: 'items', id: 'F-1', before: { rev: 2, notes: 'a' }, after: { rev: 3, notes: 'b' } },
    ]);
    store.close();
  });

  it.each<[string, Proposal, object]>([
    [
      'an old one',
      put('shelves', { ...shelf('crew', 'mine'), rev: 1 }),
      { mine: { name: 'mine' }, kept: { name: 'theirs', rev: 2 } },
    ],
    ['none, for a record that is there', put('shelves', shelf('crew', 'mine')), { kept: { name: 'theirs', rev: 2 } }],
    ['one to come', put('shelves', { ...shelf('crew', 'mine'), rev: 3 }), { kept: { name: 'theirs', rev: 2 } }],
    [
      'one of a record that is gone',
      put('shelves', { ...shelf('gone', 'mine'), rev: 4 }),
      { mine: { name: 'mine' }, kept: null },
    ],
    [
      'an old one, to remove it',
      remove('shelves', { id: 'crew', rev: 1 }),
      { mine: null, kept: { name: 'theirs', rev: 2 } },
    ],
  ])('is compared, and both versions are shown: %s', async (_what, proposal, conflicts) => {
    const journal = await keptJournal(0);
    const { store } = await openWindowOn(journal);
    await store.commit(act(put('shelves', { ...shelf('crew', 'theirs'), rev: 1 })));
    const before = journal.entries.length;
    expect(await conflict(store, put('shelves', shelf('new')), proposal)).toMatchObject([conflicts]);
    expect(journal.entries).toHaveLength(before);
    expect((await rowsOf(store, 'shelves')).get('crew')).toMatchObject({ name: 'theirs', rev: 2 });
    expect((await rowsOf(store, 'shelves')).has('new')).toBe(false);
    // A question to the person is no failure of saving.
    expect(store.saving().kind).toBe('saved');
    store.close();
  });

  it('is not spent on a change that changes nothing', async () => {
    const journal = await keptJournal(1);
    const { store } = await openWindowOn(journal);
    const { seq } = await store.commit(act(put('items', { ...fastener('F-1', 'crew'), rev: 1 })));
    expect(seq).toBe(2);
    await store.commit(act(remove('items', { id: 'never-there', rev: 3 })));
    expect(journal.entries).toHaveLength(2);
    store.close();
  });
});

describe('a record that is not whole', () => {
  it('is refused by table, code and field, before anything is written', async () => {
    const journal = await keptJournal(0);
    const { store } = await openWindowOn(journal);
    const states = saveStates(store);
    const bad = { ...fastener('F-1', 'crew'), parts: 0, thread: '' };
    const refused = await refusal(store, put('shelves', shelf('new')), put('items', bad));
    expect(refused).toMatchObject({ field: expect.stringMatching(/^items\.(parts|thread)$/) });
    expect(refused.message).toMatch(/^item F-1: /);
    expect(refused.rows?.map(({ field }) => field).toSorted()).toEqual(['items.parts', 'items.thread']);
    expect(journal.entries).toHaveLength(1);
    expect(states.some(({ kind }) => kind === 'not-saved')).toBe(false);
    store.close();
  });

  it.each<[string, object, RegExp]>([
    ['a field that is not known', { ...fastener('F-1', 'crew'), colour: 'red' }, /items\.colour/],
    ['a key that cannot be', { ...fastener('F 1', 'crew') }, /items\.id/],
    ['a kind that is not known', { ...fastener('F-1', 'crew'), kind: 'anvil' }, /items\.kind/],
  ])('is refused: %s', async (_what, record, field) => {
    const journal = await keptJournal(0);
    const { store } = await openWindowOn(journal);
    expect((await refusal(store, put('items', record as never))).field).toMatch(field);
    store.close();
  });

  it('is refused where one act names it twice', async () => {
    const journal = await keptJournal(0);
    const { store } = await openWindowOn(journal);
    const twice = await refusal(store, put('items', fastener('F-1', 'crew')), remove('items', { id: 'F-1', rev: 0 }));
    expect(twice).toMatchObject({ code: 'contradiction', field: 'items F-1' });
    store.close();
  });
});

describe('codes', () => {
  it('are unique within their shelf, and only there', async () => {
    const journal = await keptJournal(1);
    const { store } = await openWindowOn(journal);
    const refused = await refusal(store, put('items', fastener('other', 'crew', 'F-1')));
    expect(refused).toMatchObject({ code: 'duplicate-id', field: 'items.code', value: 'F-1' });
    expect(refused.message).toMatch(/item F-1.*shelf/);
    await store.commit(act(put('shelves', shelf('second')), put('items', fastener('other', 'second', 'F-1'))));
    expect((await rowsOf(store, 'items')).size).toBe(2);
    store.close();
  });

  it('are unique within one act too, and may be exchanged in one', async () => {
    const journal = await keptJournal(2);
    const { store } = await openWindowOn(journal);
    const twins = [put('items', fastener('x', 'crew', 'X')), put('items', fastener('y', 'crew', 'X'))];
    expect((await refusal(store, ...twins)).code).toBe('duplicate-id');
    await store.commit(
      act(
        put('items', { ...fastener('F-1', 'crew', 'F-2'), rev: 1 }),
        put('items', { ...fastener('F-2', 'crew', 'F-1'), rev: 1 }),
      ),
    );
    expect((await rowsOf(store, 'items')).get('F-1')).toMatchObject({ code: 'F-2' });
    store.close();
  });

  it('are unique among many at once, against what is there', async () => {
    const journal = await keptJournal(3);
    const { store } = await openWindowOn(journal);
    const many = Array.from({ length: 600 }, (_, at) => put('items', fastener(`M-${at}`, 'crew')));
    const refused = await refusal(store, ...many, put('items', fastener('other', 'crew', 'F-2')));
    expect(refused).toMatchObject({ code: 'duplicate-id', value: 'F-2' });
    expect(refused.rows).toBeUndefined();
    await store.commit(act(...many));
    // The same 600 replaced in one act do not stand in their own way.
    const edited = Array.from({ length: 600 }, (_, at) =>
      put('items', { ...fastener(`M-${at}`, 'crew', `N-${at}`), rev: 1 }),
    );
    await store.commit(act(...edited));
    expect((await rowsOf(store, 'items')).size).toBe(603);
    store.close();
  });

  it.each<[string, Proposal]>([
    ['interfaces', put('interfaces', { id: 'b', rev: 0, site: 'panel', code: 'A', kind: 'latch', count: 1 })],
    ['outings', put('outings', outing('two', 'job', 'one'))],
    ['steps', put('steps', step('s3', 'job', { code: '1' }))],
  ])('are unique within site or task: %s', async (table, proposal) => {
    const { store } = await keptTask();
    expect(await refusal(store, proposal)).toMatchObject({ code: 'duplicate-id', field: `${table}.code` });
    store.close();
  });
});

describe('what others refer to', () => {
  it.each<[string, Proposal, RegExp]>([
    [
      'a shelf with items',
      remove('shelves', { id: 'crew', rev: 1 }),
      /shelf crew: it cannot be removed while item F-1, item F-2, item F-3, task JOB refer to it/,
    ],
    [
      'a site with an interface and a task',
      remove('sites', { id: 'panel', rev: 1 }),
      /site PANEL:.*interface A, task JOB refer/,
    ],
    ['an interface with a step', remove('interfaces', { id: 'a', rev: 1 }), /interface A:.*step 2 refers/],
    ['a task with steps', remove('tasks', { id: 'job', rev: 1 }), /task JOB:.*outing one, step 1, step 2 refer/],
    ['an item that a step names', remove('items', { id: 'F-1', rev: 1 }), /item F-1:.*step 1 refers/],
    ['an item that an interface names', remove('items', { id: 'F-2', rev: 1 }), /item F-2:.*interface A refers/],
    ['an outing with steps', remove('outings', { id: 'one', rev: 1 }), /outing one:.*step 1, step 2 refer/],
    ['a step with another for its failing', remove('steps', { id: 's1', rev: 1 }), /step 1:.*step 2 refers/],
    [
      'the code of an item that a step names',
      put('items', { ...fastener('F-1', 'crew', 'F-9'), rev: 1 }),
      /item F-1: its code cannot be changed while step 1 refers/,
    ],
  ])('is not taken away: %s', async (_what, proposal, message) => {
    const { journal, store } = await keptTask();
    const before = journal.entries.length;
    expect((await refusal(store, proposal)).message).toMatch(message);
    expect(journal.entries).toHaveLength(before);
    store.close();
  });

  it('goes together with what refers to it', async () => {
    const { store } = await keptTask();
    await store.commit(
      act(
        remove('steps', { id: 's1', rev: 1 }),
        remove('steps', { id: 's2', rev: 1 }),
        remove('outings', { id: 'one', rev: 1 }),
        remove('tasks', { id: 'job', rev: 1 }),
      ),
    );
    expect((await rowsOf(store, 'steps')).size).toBe(0);
    store.close();
  });

  it('may go where nothing does: an item that no step names, or that another shelf of the task has', async () => {
    const { store } = await keptTask();
    await store.commit(act(remove('items', { id: 'F-3', rev: 1 })));
    await store.commit(
      act(
        put('shelves', shelf('second')),
        put('items', fastener('spare', 'second', 'F-1')),
        put('tasks', { ...task('job', ['crew', 'second'], 'JOB'), site: 'panel', rev: 1 }),
      ),
    );
    await store.commit(act(remove('items', { id: 'F-1', rev: 1 })));
    expect([...(await rowsOf(store, 'items')).keys()].toSorted()).toEqual(['F-2', 'spare']);
    expect((await refusal(store, remove('items', { id: 'spare', rev: 1 }))).message).toMatch(/step 1 refers/);
    store.close();
  });

  it('takes a code along where the steps are changed in the same act', async () => {
    const { store } = await keptTask();
    await store.commit(
      act(
        put('items', { ...fastener('F-1', 'crew', 'F-9'), rev: 1 }),
        put('steps', { ...step('s1', 'job', { fastener: 'F-9', count: 2, code: '1' }), rev: 1 }),
      ),
    );
    expect((await rowsOf(store, 'steps')).get('s1')).toMatchObject({ fastener: 'F-9' });
    store.close();
  });

  it.each<[string, Proposal, RegExp]>([
    ['an item on no shelf', put('items', fastener('x', 'nowhere')), /item x: its shelf names a shelf that is not kept/],
    ['a step of no task', put('steps', step('x', 'nothing')), /step x: its task/],
    [
      'a step at no interface',
      put('steps', step('x', 'job', { interface: 'z' })),
      /its interface names an interface|its interface names/,
    ],
    ['a task on no shelf', put('tasks', task('x', ['crew', 'gone'])), /its shelves names a shelf/],
  ])('must be there: %s', async (_what, proposal, message) => {
    const { store } = await keptTask();
    const refused = await refusal(store, proposal);
    expect(refused.code).toBe('unknown-id');
    expect(refused.message).toMatch(message);
    store.close();
  });

  it('lets a task’s planned bag go with the task, and come back with it', async () => {
    const journal = await keptJournal(0);
    const { store } = await openWindowOn(journal);
    await store.commit(act(put('tasks', task('job', ['crew']))));
    const result = { status: 'optimal', outings: [] } as never;
    await store.commit({
      ...act(
        put('results', {
          ...{ id: 'job', rev: 0, planHash: 'a'.repeat(64), minimised: 'mass', timeLimitS: null },
          ...{ plannedAt: '2026-01-02T10:42:00Z', result },
        }),
      ),
      undoable: false,
    });
    await store.commit(act(remove('tasks', { id: 'job', rev: 1 })));
    expect((await rowsOf(store, 'results')).size).toBe(0);
    await store.undo();
    expect((await rowsOf(store, 'results')).get('job')).toMatchObject({ result: { status: 'optimal' } });
    store.close();
  });
});
