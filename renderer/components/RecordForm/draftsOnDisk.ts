/**
 * Entries that were not saved yet, once more where a crash of the whole browser leaves them: its plain storage, which is
 * read at once, reaches the disk only seconds later. They are no records, and nothing else reads them.
 */
const database = 'unsaved-entries';
const table = 'drafts';

export interface DraftOnDisk {
  name: string;
  /** The kept text; null: it was saved or given up. */
  text: string | null;
  /** ISO 8601. */
  at: string;
}

let opening: Promise<IDBDatabase> | null = null;

function opened(): Promise<IDBDatabase> {
  return (opening ??= new Promise((resolve, reject) => {
    const request = indexedDB.open(database, 1);
    request.addEventListener('upgradeneeded', () => request.result.createObjectStore(table, { keyPath: 'name' }));
    request.addEventListener('success', () => {
      const kept = request.result;
      const forget = (): void => void (opening = null);
      kept.addEventListener('close', forget);
      kept.addEventListener('versionchange', () => {
        kept.close();
        forget();
      });
      resolve(kept);
    });
    request.addEventListener('error', () => {
      opening = null;
      reject(request.error ?? new Error('it could not be opened'));
    });
  }));
}

async function withTable<T>(mode: IDBTransactionMode, work: (drafts: IDBObjectStore) => IDBRequest<T>): Promise<T> {
  const kept = await opened();
  return await new Promise<T>((resolve, reject) => {
    const transaction = kept.transaction(table, mode);
    const request = work(transaction.objectStore(table));
    transaction.addEventListener('complete', () => resolve(request.result));
    transaction.addEventListener('abort', () => reject(transaction.error ?? new Error('it was given up')));
  });
}

export async function putOnDisk(draft: DraftOnDisk): Promise<void> {
  await withTable('readwrite', (drafts) => drafts.put(draft));
}

export function draftsOnDisk(): Promise<DraftOnDisk[]> {
  return withTable<DraftOnDisk[]>('readonly', (drafts) => drafts.getAll());
}

export async function takeOffDisk(name: string): Promise<void> {
  await withTable('readwrite', (drafts) => drafts.delete(name));
}
