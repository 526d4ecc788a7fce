/**
 * The browser's database without Dexie: for looking at what Dexie would change by opening it, what is newer than this
 * program, and what may be damaged.
 */
import type { Counts } from '../../../shared-types/records/index.ts';
import { tableNames } from '../../../shared-types/records/index.ts';
import type { Tally } from '../store.ts';
import { readMeta } from './workingCopy.ts';
import type { CopyTally } from './workingCopy.ts';

export interface ListedDatabase {
  name: string;
  /** The browser's own version, ten times Dexie's. */
  version: number;
}

/** What is there, without opening any of it. */
export async function listDatabases(): Promise<ListedDatabase[]> {
  const listed = await indexedDB.databases();
  return listed.flatMap(({ name, version }) => (name === undefined ? [] : [{ name, version: version ?? 0 }]));
}

/** Opens it at whatever version it has; never makes one. */
function openRaw(name: string): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(name);
    request.addEventListener('upgradeneeded', () => request.transaction?.abort());
    request.addEventListener('success', () => {
      const database = request.result;
      // Nobody has to wait for one who only looks.
      database.addEventListener('versionchange', () => database.close());
      resolve(database);
    });
    request.addEventListener('error', () => reject(request.error ?? new Error('it could not be opened')));
  });
}

function answerOf<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.addEventListener('success', () => resolve(request.result));
    request.addEventListener('error', () => reject(request.error ?? new Error('it could not be read')));
  });
}

async function withRaw<T>(name: string, work: (database: IDBDatabase) => Promise<T>): Promise<T> {
  const database = await openRaw(name);
  try {
    return await work(database);
  } finally {
    database.close();
  }
}

/** How far it has come and how much it holds, as far as it says so; a table that is not there counts as empty. */
export async function rawTally(name: string): Promise<Tally> {
  const { head, counts } = await rawHead(name);
  const seq = (head as { seq?: unknown } | null | undefined)?.seq;
  return { seq: typeof seq === 'number' ? seq : 0, counts };
}

/** The same with all that it says of itself. */
export async function rawCopyTally(name: string): Promise<CopyTally> {
  const { head, counts } = await rawHead(name);
  return { meta: readMeta(head), counts };
}

function rawHead(name: string): Promise<{ head: unknown; counts: Counts }> {
  return withRaw(name, async (database) => {
    const has = (table: string): boolean => database.objectStoreNames.contains(table);
    const count = async (table: string): Promise<number> =>
      has(table) ? await answerOf(database.transaction(table).objectStore(table).count()) : 0;
    const counted: [string, number][] = [];
    for (const table of tableNames) counted.push([table, await count(table)]);
    const head: unknown = has('meta')
      ? await answerOf(database.transaction('meta').objectStore('meta').get('head'))
      : null;
    return { head, counts: Object.fromEntries(counted) as Counts };
  });
}

/** So many records at a time. */
const pieceSize = 1000;

/** Every record of every table there is, in order of the keys; a table that cannot be read says why instead. */
export function rawContents(name: string): Promise<Record<string, unknown[] | { fault: string }>> {
  return withRaw(name, async (database) => {
    const contents: Record<string, unknown[] | { fault: string }> = {};
    for (const table of database.objectStoreNames) {
      try {
        contents[table] = await rawTable(database, table);
      } catch (error) {
        contents[table] = { fault: error instanceof DOMException ? `${error.message} (${error.name})` : String(error) };
      }
    }
    return contents;
  });
}

async function rawTable(database: IDBDatabase, table: string): Promise<unknown[]> {
  const rows: unknown[] = [];
  const { keyPath } = database.transaction(table).objectStore(table);
  let range: IDBKeyRange | null = null;
  for (;;) {
    const piece: unknown[] = await answerOf(database.transaction(table).objectStore(table).getAll(range, pieceSize));
    for (const row of piece) rows.push(row);
    const last = piece.at(-1) as Record<string, IDBValidKey> | undefined;
    const key = last === undefined || typeof keyPath !== 'string' ? undefined : last[keyPath];
    if (piece.length < pieceSize || key === undefined) return rows;
    range = IDBKeyRange.lowerBound(key, true);
  }
}
