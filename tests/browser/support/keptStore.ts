/** Stores for tests: records of the least kind, windows on one journal, and a working copy that a test can break. */
import { expect } from 'vitest';
import type { Item } from '../../../shared-types/records/item.ts';
import type { AnyRecord, RecordOf, TableName } from '../../../shared-types/records/index.ts';
import { tableNames } from '../../../shared-types/records/index.ts';
import type { BagResult } from '../../../shared-types/bag.ts';
import { chained, contentHash } from '../../../renderer/engine/record/chain.ts';
import type { EventDraft } from '../../../renderer/engine/record/chain.ts';
import { sha256 } from '../../../renderer/store/sha256.ts';
import { createStore } from '../../../renderer/store/createStore.ts';
import type { StoreOptions, WindowStore } from '../../../renderer/store/createStore.ts';
import { digestsOf } from '../../../renderer/store/copy/digest.ts';
import type { OpeningState, SaveState, Store } from '../../../renderer/store/store.ts';
import { WorkingCopy } from '../../../renderer/store/copy/workingCopy.ts';
import { memoryJournal } from '../../support/memoryJournal.ts';
import type { MemoryJournal } from '../../support/memoryJournal.ts';

/** As the program's, but shorter where a test waits for them to pass; longer than a busy machine holds up one call. */
export const shortLimits = { startMs: 1500, callMs: 1000 };

/** Those of the program while a window opens, and short ones from then on: what answers is not hurried. */
export function limitsToShorten() {
  const limits = { startMs: 8000, callMs: 10_000 };
  return { limits, shorten: () => void Object.assign(limits, shortLimits) };
}

export const shelf = (id: string, name = id): RecordOf<'shelves'> => ({ id, rev: 0, name });

export const fastener = (id: string, of: string, code = id): Item => ({
  ...{ id, rev: 0, shelf: of, code, retired: false, parts: 1, kit: 'both', kind: 'fastener' },
  ...{ thread: 'M6', head: { form: 'hex', acrossFlats: '10 mm' } },
});

export const task = (id: string, shelves: string[], code = id): RecordOf<'tasks'> => ({
  ...{ id, rev: 0, code, name: `Task ${code}`, shelves, places: [{ id: 'box' }] },
});

export const outing = (id: string, of: string, code = id): RecordOf<'outings'> => ({
  ...{ id, rev: 0, task: of, position: 1, code, roles: ['crew'], bags: [] },
});

export const step = (id: string, of: string, more: Partial<RecordOf<'steps'>> = {}): RecordOf<'steps'> => ({
  ...{ id, rev: 0, task: of, position: 1, code: id, outing: 'one', role: 'crew', action: 'tighten' },
  ...more,
});

export const calloutList = (id: string, of: string): RecordOf<'calloutLists'> => ({
  ...{ id, rev: 0, task: of, name: `List ${id}`, columns: ['id', 'thread'], person: 'A. Tester' },
});

export const callout = (id: string, list: string, cells: Record<string, string>): RecordOf<'callouts'> => ({
  ...{ id, rev: 0, list, position: 1, cells },
});

/** A frozen manifest of the least kind: nothing lies in it. */
export async function frozen(id: string, of: string, number = 1): Promise<RecordOf<'revisions'>> {
  const content = { planText: '{}', result: { status: 'optimal' } as BagResult, things: [], lines: [], facts: [] };
  const hash = await contentHash(content, sha256);
  const by = { name: 'P. Packer', role: 'packer' };
  return {
    id,
    rev: 0,
    task: of,
    number,
    called: 'Job',
    at: '2026-11-26T08:00:00+01:00',
    by,
    why: 'Issue',
    hash,
    content,
  };
}

/** So many remarks on it, behind the last event given. */
export function remarks(
  revision: RecordOf<'revisions'>,
  count: number,
  last: RecordOf<'events'> | null = null,
): Promise<RecordOf<'events'>[]> {
  const from = (last?.no ?? 0) + 1;
  const drafts = Array.from({ length: count }, (_, at): EventDraft => ({
    ...{ id: `${revision.id}-e${from + at}`, at: '2026-11-26T08:10:00+01:00', by: revision.by, outing: 'one' },
    deed: { kind: 'remark', words: `Remark ${from + at} ½ \u202E` },
  }));
  return chained(revision, last, drafts, sha256);
}

export const discrepancy = (id: string, of: string, revision: string, number = 1): RecordOf<'discrepancies'> => ({
  ...{ id, rev: 0, task: of, number, revision, outing: 'one', bag: 'B', item: 'F-1', name: 'F-1', pieces: 1, parts: 1 },
  opened: { at: '2026-11-26T09:00:00+01:00', by: { name: 'P. Packer', role: 'packer' } },
  lastSeen: { place: 'mast foot' },
});

export const put = <T extends TableName>(table: T, record: RecordOf<T>) => ({ table, put: record }) as never;
export const remove = (table: TableName, { id, rev }: Pick<AnyRecord, 'id' | 'rev'>) => ({
  table,
  remove: { id, rev },
});

/** A working copy whose next writes fail as the test says, or never end. */
export class FaultyCopy extends WorkingCopy {
  /** Thrown by each write while it stands. */
  fault: unknown = null;
  hangs = false;
  /** How many transactions that write the browser has called complete. */
  written = 0;

  constructor(name: string) {
    super(name);
    this.use({
      stack: 'dbcore',
      name: 'faults of a test',
      create: (core) => ({
        ...core,
        transaction: (tables, mode, options) => {
          const transaction = core.transaction(tables, mode, options);
          if (mode === 'readwrite' && transaction instanceof IDBTransaction)
            transaction.addEventListener('complete', () => (this.written += 1));
          return transaction;
        },
        table: (name_) => {
          const table = core.table(name_);
          return {
            ...table,
            mutate: (request) => {
              if (this.hangs) return new Promise(() => undefined);
              return this.fault === null ? table.mutate(request) : Promise.reject(this.fault);
            },
          };
        },
      }),
    });
  }
}

export interface TestWindow {
  store: WindowStore;
  copy: () => FaultyCopy;
}

/** A window on the journal, not yet open. */
export function windowOn(journal: MemoryJournal, options: Partial<StoreOptions> = {}): TestWindow {
  let latest: FaultyCopy | undefined;
  const store = createStore({
    journal: journal.window(),
    makeCopy: (name) => {
      latest = new FaultyCopy(name);
      return latest;
    },
    ...options,
  });
  return {
    store,
    copy: () => {
      if (latest === undefined) throw new Error('the window has not opened a working copy');
      return latest;
    },
  };
}

export async function openWindowOn(journal: MemoryJournal, options: Partial<StoreOptions> = {}): Promise<TestWindow> {
  const opened = windowOn(journal, options);
  await opened.store.open();
  expect(opened.store.opening()).toMatchObject({ kind: 'ready' });
  return opened;
}

/** A journal and its working copy with one shelf of so many fasteners, closed again. */
export async function keptJournal(items = 3): Promise<MemoryJournal> {
  const journal = memoryJournal();
  const { store } = await openWindowOn(journal);
  await store.commit({ action: 'add', title: 'Add a shelf', proposals: [put('shelves', shelf('crew'))] });
  for (let at = 1; at <= items; at += 1)
    await store.commit({ action: 'add', title: `Add F-${at}`, proposals: [put('items', fastener(`F-${at}`, 'crew'))] });
  store.close();
  return journal;
}

export function hindranceIn(store: Store): Extract<OpeningState, { kind: 'hindered' }>['hindrance'] {
  const state = store.opening();
  if (state.kind !== 'hindered') throw new Error(`not hindered: ${JSON.stringify(state)}`);
  return state.hindrance;
}

export async function rowsOf<T extends TableName>(store: Store, name: T): Promise<ReadonlyMap<string, RecordOf<T>>> {
  const table = store.table(name);
  table.subscribe(() => undefined);
  await expect.poll(() => table.state().ready).toBe(true);
  return table.state().rows;
}

/** The browser's database itself, for a test that damages it or looks at it behind the store's back. */
export function rawDatabase(name: string, version?: number): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = version === undefined ? indexedDB.open(name) : indexedDB.open(name, version);
    request.addEventListener('success', () => resolve(request.result));
    request.addEventListener('error', () => reject(request.error ?? new Error('not opened')));
  });
}

/** One transaction on the browser's database itself. */
export async function rawly(name: string, tables: string[], work: (of: IDBTransaction) => void): Promise<void> {
  const database = await rawDatabase(name);
  await new Promise<void>((resolve, reject) => {
    const transaction = database.transaction(tables, 'readwrite');
    transaction.addEventListener('complete', () => resolve());
    transaction.addEventListener('abort', () => reject(transaction.error ?? new Error('aborted')));
    work(transaction);
  });
  database.close();
}

export function deleteDatabase(name: string): Promise<void> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.deleteDatabase(name);
    request.addEventListener('success', () => resolve());
    request.addEventListener('error', () => reject(request.error ?? new Error('not deleted')));
  });
}

export async function digestsIn(name: string): Promise<Awaited<ReturnType<typeof digestsOf>>> {
  const copy = new WorkingCopy(name);
  await copy.open();
  const digests = await digestsOf(copy);
  copy.shut();
  return digests;
}

/** Per table, what does not depend on how often it was changed. */
export async function contentDigests(name: string): Promise<Record<string, string>> {
  const digests = await digestsIn(name);
  return Object.fromEntries(tableNames.map((table) => [table, digests[table].withoutRev]));
}

/** Every state that the save line goes through from here on. */
export function saveStates(store: Store): SaveState[] {
  const states: SaveState[] = [];
  store.subscribeSaving(() => states.push(store.saving()));
  return states;
}

/** Fails the test that leaves a rejected promise to nobody. */
export function unhandledIn(work: () => Promise<void>): Promise<unknown[]> {
  const unhandled: unknown[] = [];
  const note = (event: PromiseRejectionEvent): void => {
    event.preventDefault();
    unhandled.push(event.reason);
  };
  window.addEventListener('unhandledrejection', note);
  const settle = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 50));
  return work()
    .then(settle)
    .finally(() => window.removeEventListener('unhandledrejection', note))
    .then(() => unhandled);
}
