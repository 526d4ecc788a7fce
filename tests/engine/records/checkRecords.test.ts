/** Acceptance line R30: what was planted in kept records is found, each with its record. */
import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { checkRecords } from '../../../renderer/engine/records/checkRecords.ts';
import type { KeptTables } from '../../../renderer/engine/records/checkRecords.ts';
import { chained, contentHash } from '../../../renderer/engine/record/chain.ts';
import { tableNames } from '../../../shared-types/records/index.ts';
import type { TableName } from '../../../shared-types/records/index.ts';

const digest = (text: string): Promise<string> => Promise.resolve(createHash('sha256').update(text).digest('hex'));

type Plain = Record<string, unknown>;
type Edited = Map<TableName, Map<string, Plain>>;

/** A small shop: a shelf with items, a site, a task with outing, steps, lists, a frozen manifest with events, a discrepancy. */
async function shop(): Promise<Edited> {
  const fastener = { kind: 'fastener', thread: 'M6', head: { form: 'hex', acrossFlats: '10 mm' } };
  const item = { rev: 1, shelf: 'crew', retired: false, parts: 1, kit: 'both', ...fastener };
  const content = { planText: '{}', result: { status: 'optimal' }, things: [], lines: [], facts: [] };
  const by = { name: 'A. Packer', role: 'packer' };
  const at = '2031-04-05T10:20:30+01:00';
  const revision = {
    ...{ id: 'r', rev: 1, task: 'job', number: 1, called: 'Job', at, by, why: 'Ready', content },
    hash: await contentHash(content as never, digest),
  };
  const drafts = [1, 2, 3].map((n) => ({
    id: `e${n}`,
    at,
    by,
    outing: 'one',
    deed: { kind: 'remark' as const, words: `Said ${n}` },
  }));
  const events = await chained(revision, null, drafts, digest);
  const records: [TableName, Plain][] = [
    ['shelves', { id: 'crew', rev: 1, name: 'Crew' }],
    ['items', { ...item, id: 'i1', code: 'F-1', tag: 1 }],
    ['items', { ...item, id: 'i2', code: 'F-2', tag: 2 }],
    ['sites', { id: 'site', rev: 1, code: 'PANEL' }],
    ['interfaces', { id: 'f', rev: 1, site: 'site', code: 'A', kind: 'fastener', fastener: 'F-1', count: 4 }],
    ['tasks', { id: 'job', rev: 1, code: 'JOB', name: 'Job', shelves: ['crew'], site: 'site', places: [] }],
    ['outings', { id: 'o', rev: 1, task: 'job', position: 1, code: 'one', roles: ['crew'], bags: [] }],
    [
      'steps',
      {
        id: 's1',
        rev: 1,
        task: 'job',
        position: 1,
        code: '1',
        outing: 'one',
        role: 'crew',
        action: 'use',
        interface: 'f',
      },
    ],
    ['steps', { id: 's2', rev: 1, task: 'job', position: 2, code: '2', outing: 'one', role: 'crew', action: 'use' }],
    ['calloutLists', { id: 'l', rev: 1, task: 'job', name: 'List', columns: ['id', 'thread'], person: 'A. T.' }],
    ['callouts', { id: 'c', rev: 1, list: 'l', position: 1, cells: { id: 'C-1', thread: 'M6' } }],
    ['revisions', revision],
    ...events.map((event): [TableName, Plain] => ['events', { ...event, rev: 1 }]),
    [
      'discrepancies',
      {
        ...{
          id: 'd',
          rev: 1,
          task: 'job',
          number: 1,
          revision: 'r',
          outing: 'one',
          bag: 'B',
          item: 'F-1',
          name: 'F-1',
        },
        ...{ pieces: 1, parts: 1, opened: { at, by }, lastSeen: { place: 'mast foot' } },
      },
    ],
  ];
  const tables: Edited = new Map(tableNames.map((name) => [name, new Map()]));
  for (const [table, record] of records) tables.get(table)?.set(String(record['id']), record);
  return tables;
}

const edit = (kept: Edited, table: TableName, id: string, change: Plain): void =>
  void kept.get(table)?.set(id, { ...kept.get(table)?.get(id), ...change });
const gone = (kept: Edited, table: TableName, id: string): void => void kept.get(table)?.delete(id);

const planted: [
  what: string,
  plant: (kept: Edited) => void,
  found: { table: TableName; rule: string; says: RegExp },
][] = [
  [
    'an item of a shelf that is gone',
    (kept) => gone(kept, 'shelves', 'crew'),
    { table: 'items', rule: 'lost', says: /shelf names crew/ },
  ],
  [
    'a task of a site that is gone',
    (kept) => gone(kept, 'sites', 'site'),
    { table: 'tasks', rule: 'lost', says: /site names site/ },
  ],
  [
    'a step of an interface that is gone',
    (kept) => gone(kept, 'interfaces', 'f'),
    { table: 'steps', rule: 'lost', says: /interface names f/ },
  ],
  [
    'a step of an outing that is gone',
    (kept) => gone(kept, 'outings', 'o'),
    { table: 'steps', rule: 'lost', says: /outing names one/ },
  ],
  [
    'a step of a task that is gone',
    (kept) => gone(kept, 'tasks', 'job'),
    { table: 'steps', rule: 'lost', says: /task names job/ },
  ],
  [
    'a callout of a list that is gone',
    (kept) => gone(kept, 'calloutLists', 'l'),
    { table: 'callouts', rule: 'lost', says: /list names l/ },
  ],
  [
    'events of a manifest that is gone',
    (kept) => gone(kept, 'revisions', 'r'),
    { table: 'events', rule: 'lost', says: /revision names r/ },
  ],
  [
    'a shelf of a task that is no key',
    (kept) => edit(kept, 'tasks', 'job', { shelves: ['crew', 'nowhere'] }),
    { table: 'tasks', rule: 'lost', says: /shelves names nowhere/ },
  ],
  [
    'a code there twice on a shelf',
    (kept) => edit(kept, 'items', 'i2', { code: 'F-1' }),
    { table: 'items', rule: 'twice', says: /code F-1 is that of i1/ },
  ],
  [
    'a label there twice',
    (kept) => edit(kept, 'items', 'i2', { tag: 1 }),
    { table: 'items', rule: 'twice', says: /tag 1 is that of i1/ },
  ],
  [
    'a code there twice in a task',
    (kept) => edit(kept, 'steps', 's2', { code: '1' }),
    { table: 'steps', rule: 'twice', says: /code 1 is that of s1/ },
  ],
  [
    'a record under another key',
    (kept) => kept.get('items')?.set('i9', { ...kept.get('items')?.get('i1'), code: 'F-9', tag: 9 }),
    { table: 'items', rule: 'key', says: /another key/ },
  ],
  [
    'a field of another shape',
    (kept) => edit(kept, 'items', 'i1', { retired: 'no' }),
    { table: 'items', rule: 'shape', says: /retired/ },
  ],
  [
    'a field too many',
    (kept) => edit(kept, 'shelves', 'crew', { colour: 'red' }),
    { table: 'shelves', rule: 'shape', says: /colour/ },
  ],
  [
    'a field too few',
    (kept) => edit(kept, 'tasks', 'job', { name: undefined }),
    { table: 'tasks', rule: 'shape', says: /name/ },
  ],
  [
    'a manifest that was edited',
    (kept) =>
      edit(kept, 'revisions', 'r', {
        content: { ...(kept.get('revisions')?.get('r')?.['content'] as Plain), planText: '{"a":1}' },
      }),
    { table: 'revisions', rule: 'chain', says: /not what its hash says/ },
  ],
  [
    'an event that was edited',
    (kept) => edit(kept, 'events', 'e2', { deed: { kind: 'remark', words: 'Never said' } }),
    { table: 'revisions', rule: 'chain', says: /event 2: its content/ },
  ],
  [
    'an event that is gone',
    (kept) => gone(kept, 'events', 'e2'),
    { table: 'revisions', rule: 'chain', says: /event 2 is gone/ },
  ],
  [
    'an event there twice',
    (kept) => kept.get('events')?.set('e9', { ...kept.get('events')?.get('e2'), id: 'e9' }),
    { table: 'events', rule: 'twice', says: /no 2 is that of/ },
  ],
  [
    'a discrepancy of a manifest that never was',
    (kept) => edit(kept, 'discrepancies', 'd', { revision: 'x' }),
    { table: 'discrepancies', rule: 'lost', says: /revision names x/ },
  ],
];

describe('a check of all kept records', () => {
  it('finds nothing where all of it is whole, and in nothing at all', async () => {
    expect(await checkRecords(await shop(), digest)).toEqual([]);
    expect(await checkRecords(new Map() as KeptTables, digest)).toEqual([]);
  });

  it('has twenty kinds of fault to find', () => expect(planted).toHaveLength(20));

  it.each(planted)('finds %s', async (_what, plant, { table, rule, says }) => {
    const kept = await shop();
    plant(kept);
    const faults = await checkRecords(kept, digest);
    const found = faults.filter((fault) => fault.table === table && fault.rule === rule && says.test(fault.message));
    expect(found.length, JSON.stringify(faults)).toBeGreaterThanOrEqual(1);
    for (const fault of found) expect(kept.get(fault.table)?.has(fault.id)).toBe(true);
  });

  it('takes fifty thousand records in a time that grows as they do', async () => {
    const manyItems = async (count: number): Promise<number> => {
      const kept = await shop();
      for (let n = 0; n < count; n += 1)
        kept.get('items')?.set(`n${n}`, { ...kept.get('items')?.get('i1'), id: `n${n}`, code: `N-${n}`, tag: 100 + n });
      const began = process.cpuUsage();
      expect(await checkRecords(kept, digest)).toEqual([]);
      return process.cpuUsage(began).user;
    };
    await manyItems(2_000);
    const [few, many] = [await manyItems(5_000), await manyItems(50_000)];
    expect(many).toBeLessThan(40 * few);
  });
});
