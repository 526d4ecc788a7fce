/** The records in the browser's database, read past the program: nothing of ours can make them look better. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { tableNames } from '../../../shared-types/records/index.ts';
import type { Records } from './burst/main.ts';

/** The database that the journal in this folder points at. */
export function pointedAt(journalFolder: string): string {
  try {
    return (JSON.parse(readFileSync(join(journalFolder, 'store.json'), 'utf8')) as { database: string }).database;
  } catch {
    return 'bagwright-1';
  }
}

export function rawRecords(page: Page, database: string): Promise<Records> {
  return page.evaluate(
    ({ name, tables }) =>
      new Promise<Records>((resolve, reject) => {
        const opening = indexedDB.open(name);
        opening.addEventListener('error', () => reject(opening.error ?? new Error('not opened')));
        opening.addEventListener('upgradeneeded', () => opening.transaction?.abort());
        opening.addEventListener('success', () => {
          const reading = opening.result.transaction(tables);
          const rows: Record<string, unknown> = {};
          for (const table of tables) {
            const all = reading.objectStore(table).getAll();
            all.addEventListener('success', () => (rows[table] = all.result));
          }
          reading.addEventListener('abort', () => reject(reading.error ?? new Error('not read')));
          reading.addEventListener('complete', () => {
            opening.result.close();
            resolve(rows as Records);
          });
        });
      }),
    { name: database, tables: tableNames },
  );
}
