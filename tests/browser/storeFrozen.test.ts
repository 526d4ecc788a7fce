/** What left and what came back is only ever added to: the store refuses everything else, in the middle of any act. */
import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../renderer/engine/errors.ts';
import { appendEvents } from '../../renderer/features/revisions/appendEvents.ts';
import type { Proposal, Store } from '../../renderer/store/store.ts';
import { ConflictError } from '../../renderer/store/store.ts';
import type { RecordOf } from '../../shared-types/records/index.ts';
import type { MemoryJournal } from '../support/memoryJournal.ts';
import {
  discrepancy,
  frozen,
  keptJournal,
  openWindowOn,
  outing,
  put,
  remarks,
  remove,
  rowsOf,
  task,
} from './support/keptStore.ts';

const act = (...proposals: Proposal[]) => ({ action: 'record', title: 'Record', undoable: false, proposals });

async function refusalOf(store: Store, ...proposals: Proposal[]) {
  const error: unknown = await store.commit(act(...proposals)).then(
    () => null,
    (reason: unknown) => reason,
  );
  if (!(error instanceof RefusedError)) throw new Error(`not refused: ${String(error)}`);
  return error.refusal;
}

interface Opened {
  journal: MemoryJournal;
  store: Awaited<ReturnType<typeof openWindowOn>>['store'];
  revision: RecordOf<'revisions'>;
  events: RecordOf<'events'>[];
}

/** A task with a frozen manifest, three events and one discrepancy, as they are kept. */
async function frozenTask(): Promise<Opened> {
  const journal = await keptJournal(0);
  const { store } = await openWindowOn(journal);
  const made = await frozen('r1', 'job');
  await store.commit(act(put('tasks', task('job', ['crew'])), put('outings', outing('one', 'job'))));
  await store.commit(act(put('revisions', made)));
  await store.commit(act(...(await remarks(made, 3)).map((event) => put('events', event))));
  await store.commit(act(put('discrepancies', discrepancy('d1', 'job', 'r1'))));
  const revision = (await rowsOf(store, 'revisions')).get('r1');
  const events = [...(await rowsOf(store, 'events')).values()].toSorted((a, b) => a.no - b.no);
  if (revision === undefined) throw new Error('the revision was not kept');
  return { journal, store, revision, events };
}

describe('a frozen manifest', () => {
  it('is never changed, never removed, and its number is given once', async () => {
    const { journal, store, revision } = await frozenTask();
    const before = journal.entries.length;
    const second = await frozen('r2', 'job', 1);
    const other = { ...revision.content, planText: '{"a":1}' };
    for (const [proposal, message] of [
      [put('revisions', { ...revision, why: 'Another reason' }), /Revision 1: a frozen manifest is never changed/],
      [put('revisions', { ...revision, number: 2 }), /never changed/],
      [remove('revisions', revision), /cannot be removed while event 1, event 2, event 3, discrepancy 1 refer/],
      [put('revisions', second), /Revision 1 is there already in this task/],
      [put('revisions', { ...second, number: 2, content: other }), /its content is not what its hash says/],
      [put('revisions', await frozen('r3', 'nowhere', 1)), /names a task that is not kept/],
      [remove('tasks', { id: 'job', rev: 1 }), /cannot be removed while .*frozen manifest 1/],
    ] as const)
      expect((await refusalOf(store, proposal)).message).toMatch(message);
    expect(journal.entries).toHaveLength(before);
    await store.commit(act(put('revisions', { ...second, number: 2 })));
    // With nothing done yet it stays all the same.
    expect((await refusalOf(store, remove('revisions', { id: 'r2', rev: 1 }))).message).toMatch(/never removed/);
    expect((await rowsOf(store, 'revisions')).size).toBe(2);
    store.close();
  });

  it('stays where a task of the same records is removed in one act with all else', async () => {
    const { store } = await frozenTask();
    const all = await refusalOf(
      store,
      remove('outings', { id: 'one', rev: 1 }),
      remove('tasks', { id: 'job', rev: 1 }),
    );
    expect(all.message).toMatch(/task job: it cannot be removed/);
    expect((await rowsOf(store, 'outings')).size).toBe(1);
    store.close();
  });
});

describe('an event', () => {
  it('is never changed and never removed', async () => {
    const { store, events } = await frozenTask();
    const [first] = events;
    if (first === undefined) throw new Error('there are three');
    for (const proposal of [
      put('events', { ...first, at: '2026-11-26T08:11:00+01:00' }),
      put('events', { ...first, deed: { kind: 'remark', words: 'otherwise' } }),
      remove('events', first),
    ])
      expect((await refusalOf(store, proposal)).message).toMatch(/What was done is never changed and never removed/);
    store.close();
  });

  it('follows the last one by number, by its hash, and by what it says', async () => {
    const { journal, store, revision, events } = await frozenTask();
    const last = events.at(-1) ?? null;
    const before = journal.entries.length;
    const [next, after] = await remarks(revision, 2, last);
    if (next === undefined || after === undefined) throw new Error('there are two');
    for (const [wrong, no] of [
      [{ ...next, no: 5 }, 5],
      [{ ...next, no: 3, id: 'again' }, 3],
      [{ ...next, prev: revision.hash }, 4],
      [{ ...next, hash: after.hash }, 4],
      [{ ...next, by: { name: 'Q.', role: 'packer' } }, 4],
      [{ ...next, outing: 'two' }, 4],
      [after, 5],
    ] as const)
      expect(await refusalOf(store, put('events', wrong))).toMatchObject({ field: 'events.no', value: no });
    // One that follows does not carry one that does not.
    expect(await refusalOf(store, put('events', next), put('events', { ...after, prev: next.prev }))).toMatchObject({
      value: 5,
    });
    expect(journal.entries).toHaveLength(before);
    // In whatever order they are handed over.
    await store.commit(act(put('events', after), put('events', next)));
    expect((await rowsOf(store, 'events')).size).toBe(5);
    store.close();
  });

  it('is chained to a manifest that is frozen in the same act, and to none that is not kept', async () => {
    const { store } = await frozenTask();
    const second = await frozen('r2', 'job', 2);
    const [event] = await remarks(second, 1);
    if (event === undefined) throw new Error('there is one');
    expect((await refusalOf(store, put('events', event))).message).toMatch(/names a frozen manifest that is not kept/);
    await store.commit(act(put('revisions', second), put('events', event)));
    expect((await rowsOf(store, 'events')).get(event.id)).toMatchObject({ revision: 'r2', no: 1, prev: second.hash });
    store.close();
  });

  it('is chained by the program however quickly, and from two windows in turn, none twice and none lost', async () => {
    const { journal, store, revision } = await frozenTask();
    const done = (words: string) => ({
      title: 'Remark',
      done: [
        { at: '2026-11-26T08:20:00+01:00', by: revision.by, outing: 'one', deed: { kind: 'remark', words } as const },
      ],
    });
    await Promise.all(Array.from({ length: 20 }, (_, at) => appendEvents(store, revision, done(`here ${at}`))));
    const { store: other } = await openWindowOn(journal);
    await other.writeHere();
    await appendEvents(other, revision, done('there'));
    await store.writeHere();
    await appendEvents(store, revision, done('here again'));
    const kept = [...(await rowsOf(store, 'events')).values()].toSorted((a, b) => a.no - b.no);
    expect(kept.map(({ no }) => no)).toEqual(Array.from({ length: 25 }, (_, at) => at + 1));
    const words = kept.map(({ deed }) => (deed.kind === 'remark' ? deed.words : ''));
    expect(words.slice(3)).toEqual([...Array.from({ length: 20 }, (_, at) => `here ${at}`), 'there', 'here again']);
    store.close();
    other.close();
  });
});

describe('a discrepancy', () => {
  it('is closed once, by a named person, and says otherwise nothing new', async () => {
    const { store } = await frozenTask();
    const open = (await rowsOf(store, 'discrepancies')).get('d1');
    if (open === undefined) throw new Error('the discrepancy was not kept');
    const closed = {
      at: '2026-11-27T08:00:00+01:00',
      by: open.opened.by,
      how: 'found',
      words: 'In the hoist box',
    } as const;
    for (const wrong of [
      { ...open, pieces: 2 },
      { ...open, closed, item: 'F-2' },
      { ...open, lastSeen: { place: 'boat' }, closed },
    ])
      expect((await refusalOf(store, put('discrepancies', wrong))).message).toMatch(/Discrepancy 1: what it says/);
    expect(
      (await refusalOf(store, put('discrepancies', { ...open, closed: { ...closed, by: { name: '', role: 'x' } } })))
        .field,
    ).toMatch(/closed/);
    expect((await refusalOf(store, remove('discrepancies', open))).message).toMatch(/never removed/);
    expect((await refusalOf(store, put('discrepancies', discrepancy('d2', 'job', 'r1', 1)))).message).toMatch(
      /is there already/,
    );
    await store.commit(act(put('discrepancies', { ...open, closed })));
    const kept = (await rowsOf(store, 'discrepancies')).get('d1');
    if (kept === undefined) throw new Error('it is gone');
    expect(kept.closed).toEqual(closed);
    for (const again of [
      { ...kept, closed: { ...closed, how: 'lost' } },
      { ...kept, closed: undefined },
    ] as const)
      expect((await refusalOf(store, put('discrepancies', again as never))).message).toMatch(/never changed/);
    // What another window closed meanwhile is shown beside one's own, and nothing is written over it.
    await expect(store.commit(act(put('discrepancies', { ...open, closed })))).rejects.toThrow(ConflictError);
    store.close();
  });
});
