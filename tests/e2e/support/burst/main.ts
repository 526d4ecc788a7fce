/** A page without screens: the program's own store and host, and handles by which a test drives them. */
import type { AnyRecord, RecordOf, TableName } from '../../../../shared-types/records/index.ts';
import { tableNames } from '../../../../shared-types/records/index.ts';
import { connectHost } from '../../../../renderer/host/index.ts';
import { createStore } from '../../../../renderer/store/createStore.ts';
import { ConflictError } from '../../../../renderer/store/store.ts';
import type { Act, OpeningState, SaveState } from '../../../../renderer/store/store.ts';
import { deedOf } from './acts.ts';

export type Records = { [T in TableName]: RecordOf<T>[] };

export interface BurstPage {
  /** Opens the store; answers once it is ready or hindered. */
  open(): Promise<OpeningState>;
  rebuild(): Promise<OpeningState>;
  keepCopy(): Promise<OpeningState>;
  commit(act: Act): Promise<number>;
  undo(): Promise<number>;
  redo(): Promise<number>;
  /** Writes the acts from number `from` on, one after the other, telling of each when it begins and when it is saved. */
  burst(from: number, through?: number): Promise<void>;
  /** Adds one to the record `times` times, each time from what it finds; others may do the same meanwhile. */
  countUp(id: string, times: number): Promise<number>;
  saving(): SaveState;
  saveAgain(): void;
  writeHere(): Promise<void>;
  snapshot(): Promise<void>;
  /** As the screens see them. */
  read(): Promise<Records>;
  /** As the journal says, entry by entry from the first. */
  replay(): Promise<{ seq: number; records: Records }>;
  exportAll(): Promise<string>;
}

declare global {
  interface Window {
    burst: BurstPage;
    /** Exposed by the test. The number of the act that begins; that of one which the store calls saved. */
    actBegins?: (n: number) => Promise<void>;
    actSaved?: (n: number) => Promise<void>;
  }
}

const host = connectHost();
const store = createStore({ journal: host.journal, now: () => new Date() });

async function settledOpening(work: Promise<unknown>): Promise<OpeningState> {
  await work;
  return store.opening();
}

function rowsOf<T extends TableName>(name: T): Promise<RecordOf<T>[]> {
  const { kind } = store.opening();
  // A store that is not open has no rows to wait for.
  if (kind !== 'ready') return Promise.reject(new Error(`the store is ${kind}`));
  const table = store.table(name);
  return new Promise((resolve, reject) => {
    const look = (): boolean => {
      const { ready, rows, fault } = table.state();
      if (fault !== null) reject(new Error(fault));
      if (ready) resolve([...rows.values()]);
      return ready || fault !== null;
    };
    const leave = table.subscribe(() => {
      if (look()) leave();
    });
    if (look()) leave();
  });
}

const recordsBy = async (read: (name: TableName) => Promise<AnyRecord[]>): Promise<Records> =>
  Object.fromEntries(await Promise.all(tableNames.map(async (name) => [name, await read(name)]))) as Records;

window.burst = {
  open: () => settledOpening(store.open()),
  rebuild: () => settledOpening(store.rebuildFromJournal()),
  keepCopy: () => settledOpening(store.keepWorkingCopy()),
  commit: async (act) => (await store.commit(act)).seq,
  undo: async () => (await store.undo()).seq,
  redo: async () => (await store.redo()).seq,
  async burst(from, through = Number.MAX_SAFE_INTEGER) {
    for (let n = from; n <= through; n += 1) {
      // Waited for: a browser killed in the act must not take the word of it along.
      await window.actBegins?.(n);
      const deed = deedOf(n);
      if (deed.kind === 'undo') await store.undo();
      else await store.commit(deed.act);
      void window.actSaved?.(n);
    }
  },
  async countUp(id, times) {
    let asked = 0;
    for (let done = 0; done < times;) {
      const item = (await rowsOf('items')).find((row) => row.id === id);
      if (item === undefined || item.kind === 'bag') throw new Error(`${id} is not there to be counted`);
      const put = { ...item, onHand: (item.onHand ?? 0) + 1 };
      asked += 1;
      try {
        await store.commit({ action: 'edit', title: `Count ${id}`, proposals: [{ table: 'items', put }] });
        done += 1;
      } catch (error) {
        // Changed meanwhile: read again. Another window writes: take it over, as a person would.
        if (error instanceof ConflictError) continue;
        if (store.saving().kind !== 'elsewhere') throw error;
        await store.writeHere();
      }
    }
    return asked;
  },
  saving: () => store.saving(),
  saveAgain: () => store.saveAgain(),
  writeHere: () => store.writeHere(),
  async snapshot() {
    await host.snapshots.make({ why: 'asked' });
  },
  read: () => recordsBy(rowsOf),
  async replay() {
    const held = new Map(tableNames.map((name) => [name, new Map<string, AnyRecord>()]));
    let seq = 0;
    for (let from: number | null = 1; from !== null;) {
      const page = await host.journal.read({ from });
      for (const entry of page.entries) {
        seq = entry.seq;
        for (const { table, id, after } of entry.payload.changes) {
          if (after === null) held.get(table)?.delete(id);
          else held.get(table)?.set(id, after as AnyRecord);
        }
      }
      from = page.next;
    }
    return { seq, records: await recordsBy(async (name) => [...(held.get(name)?.values() ?? [])]) };
  },
  exportAll: () => store.exportAll(),
};
