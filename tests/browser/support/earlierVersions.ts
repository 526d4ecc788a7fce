/** Journals and databases as programs of earlier versions left them. */
import type { AnyRecord, RecordOf } from '../../../shared-types/records/index.ts';
import { canonicalJson } from '../../../shared-types/canonicalJson.ts';
import { emptyHash } from '../../../shared-types/journal.ts';
import { nativeVersion } from '../../../renderer/store/copy/workingCopy.ts';
import { sha256 } from '../../../renderer/store/sha256.ts';
import { memoryJournal } from '../../support/memoryJournal.ts';
import type { MemoryJournal } from '../../support/memoryJournal.ts';
import { callout, calloutList, fastener, outing, shelf, step, task } from './keptStore.ts';

/** The tables of version 1 as they were shipped, as the browser itself knows them. */
export const versionOne: Record<string, [path: string | string[], many?: boolean][]> = {
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
export const versionTwo: typeof versionOne = {
  ...versionOne,
  notes: [['task']],
  calloutLists: [['task']],
  callouts: [['list']],
  asRunLists: [['task'], ['callouts']],
  asRuns: [['list']],
};

export const keptThen: [table: string, record: AnyRecord][] = [
  ['shelves', { ...shelf('crew', 'Crëw ½'), rev: 1 }],
  ['items', { ...fastener('F-1', 'crew'), rev: 1 }],
  ['sites', { id: 'panel', rev: 1, code: 'PANEL' }],
  ['interfaces', { id: 'a', rev: 1, site: 'panel', code: 'A', kind: 'fastener', fastener: 'F-1', count: 4 }],
  ['tasks', { ...task('job', ['crew']), rev: 1 }],
  ['outings', { ...outing('one', 'job'), rev: 1 }],
  ['steps', { ...step('s', 'job', { fastener: 'F-1', count: 4 }), rev: 1 }],
];

export const keptByTwo: typeof keptThen = [
  ...keptThen,
  ['calloutLists', { ...calloutList('list', 'job'), rev: 1 }],
  ['callouts', { ...callout('c-1', 'list', { id: 'C-1', thread: '3/8-24' }), rev: 1 }],
];

/** A journal and a database as the program of an earlier version left them. */
export async function earlierJournal(
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

/** As version 3 left them: texts of its own at the interface and at the step. */
export const keptByThree: typeof keptThen = keptByTwo.map(([table, record]): (typeof keptThen)[number] =>
  table === 'interfaces' || table === 'steps'
    ? [table, { ...record, watchOuts: ['Wet plinth.', 'Sharp edge.'] } as AnyRecord]
    : [table, record],
);

export const watchOut: RecordOf<'watchOuts'> = {
  ...{ id: 'w', rev: 0, text: 'The stud seizes.' },
  ties: [
    { to: 'interface', interface: 'a', called: 'A of PANEL' },
    { to: 'item', shelf: 'crew', code: 'F-1', called: 'F-1' },
    { to: 'step', step: 's', called: 'step s of job' },
  ],
  learned: { in: 'as-run', task: 'job', record: 'r-1', words: 'B-03', on: '2026-11-25', person: 'Q.' },
};

export const keptByFour: typeof keptThen = [...keptByThree, ['watchOuts', { ...watchOut, rev: 1 }]];
