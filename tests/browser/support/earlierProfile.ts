/** A journal and a database as a program of an earlier version left them, tables and indexes as that version had them. */
import { knownVersion, nativeVersion } from '../../../renderer/store/copy/workingCopy.ts';
import type { AnyRecord } from '../../../shared-types/records/index.ts';
import { memoryJournal } from '../../support/memoryJournal.ts';
import type { MemoryJournal } from '../../support/memoryJournal.ts';
import { entriesOf, goldenTables } from '../../support/released/index.ts';
import type { Released } from '../../support/released/index.ts';

type Index = [path: string | string[], many?: boolean];

/** As they were shipped, as the browser itself knows them. */
const versionOne: Record<string, Index[]> = {
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
const versionTwo = {
  ...versionOne,
  notes: [['task']],
  calloutLists: [['task']],
  callouts: [['list']],
  asRunLists: [['task'], ['callouts']],
  asRuns: [['list']],
} satisfies Record<string, Index[]>;
const versionFour = { ...versionTwo, watchOuts: [] };
const tablesOf: Record<number, Record<string, Index[]>> = {
  1: versionOne,
  2: versionTwo,
  3: versionTwo,
  4: versionFour,
  5: {
    ...versionFour,
    items: [[['shelf', 'code']], ['code'], ['tag']],
    revisions: [[['task', 'number']]],
    events: [[['revision', 'no']]],
    discrepancies: [[['task', 'number']], ['revision']],
    arrivals: [],
  },
};

const raw = import.meta.glob<string>('../../support/released/version-*', {
  eager: true,
  query: '?raw',
  import: 'default',
});
const textOf = (name: string): string | null => raw[`../../support/released/${name}`] ?? null;

/** Of every version before this one. */
export const released: readonly Released[] = Array.from({ length: knownVersion - 1 }, (_, at) => {
  const version = at + 1;
  const [everything, golden] = [textOf(`version-${version}.everything`), textOf(`version-${version}.golden`)];
  if (everything === null || golden === null) throw new Error(`nothing is kept of version ${version}`);
  return { version, everything, golden, snapshot: textOf(`version-${version}.snapshot`) };
});

const keyOf: Record<string, string> = { meta: 'key', arrivals: 'at' };

/** The old program let go of both before this one begins. */
export async function earlierProfile(one: Released, pageSize = 500): Promise<MemoryJournal> {
  const journal = memoryJournal({ pageSize });
  journal.entries.push(...entriesOf(one));
  journal.faults.schema = one.version;
  const tables = tablesOf[one.version] ?? {};
  const rows = goldenTables(one);
  const last = journal.entries.at(-1);
  await new Promise<void>((resolve, reject) => {
    const request = indexedDB.open(journal.database(), nativeVersion(one.version));
    request.addEventListener('upgradeneeded', () => {
      for (const [table, indexes] of Object.entries(tables)) {
        const made = request.result.createObjectStore(table, { keyPath: keyOf[table] ?? 'id' });
        for (const [path, many = false] of indexes)
          made.createIndex(Array.isArray(path) ? `[${path.join('+')}]` : path, path, { multiEntry: many });
      }
    });
    request.addEventListener('success', () => {
      const database = request.result;
      const transaction = database.transaction(Object.keys(tables), 'readwrite');
      for (const [table, own] of rows as ReadonlyMap<string, ReadonlyMap<string, AnyRecord>>)
        for (const record of own.values()) transaction.objectStore(table).put(record);
      transaction.objectStore('meta').put({ key: 'head', seq: last?.seq ?? 0, hash: last?.hash ?? '' });
      transaction.addEventListener('complete', () => (database.close(), resolve()));
      transaction.addEventListener('abort', () => reject(transaction.error ?? new Error('not filled')));
    });
    request.addEventListener('error', () => reject(request.error ?? new Error('not made')));
  });
  return journal;
}
