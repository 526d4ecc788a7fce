/** Everything of one program in another: added, the same or differing, and never anything less than there was. */
import { describe, expect, it } from 'vitest';
import { intoHere } from '../../../renderer/engine/everything/intoHere.ts';
import { outcomeFaults } from '../../../renderer/engine/everything/outcomeFaults.ts';
import { readEverything } from '../../../renderer/engine/everything/readEverything.ts';
import { snapshotText } from '../../../renderer/engine/everything/readSnapshotText.ts';
import type { AllTables } from '../../../renderer/engine/everything/readSnapshotText.ts';
import { checkRecords } from '../../../renderer/engine/records/checkRecords.ts';
import type { KeptTables } from '../../../renderer/engine/records/checkRecords.ts';
import type { AnyRecord, TableName } from '../../../shared-types/records/index.ts';
import { tableNames } from '../../../shared-types/records/index.ts';
import type { Item } from '../../../shared-types/records/item.ts';
import type { Discrepancy, Revision } from '../../../shared-types/records/revision.ts';
import { dice } from '../../reference/dice.ts';
import { randomTables } from '../../support/randomRecords.ts';
import { digest } from './released.ts';

/** Of each table: some 200 in all; with more, as many as are wanted. */
const each = Number(process.env['BAGWRIGHT_TRIALS'] ?? 12);
const seed = Number(process.env['BAGWRIGHT_SEED'] ?? 4711);

const frame = {
  ...{ seq: 7, hash: 'a'.repeat(64), deviceId: 'b'.repeat(32), utc: '2031-04-05T10:20:30.000Z' },
  why: 'asked' as const,
};

const written = (here: AllTables, puts: { table: TableName; record: AnyRecord }[]): AllTables => {
  const tables = new Map([...here].map(([name, rows]) => [name, new Map(rows)]));
  for (const { table, record } of puts)
    tables.set(table, (tables.get(table) ?? new Map<string, AnyRecord>()).set(record.id, record));
  return tables;
};

/** Every field of every record but the count of its changes, in the order of its keys. */
const fieldsOf = (tables: AllTables) =>
  tableNames.map((name) => [
    name,
    [...(tables.get(name) ?? [])]
      .toSorted(([one], [other]) => (one < other ? -1 : 1))
      .map(([, record]) => ({ ...record, rev: 0 })),
  ]);

const changed = (
  tables: AllTables,
  table: TableName,
  id: string,
  to: (record: AnyRecord) => AnyRecord | null,
): AllTables => {
  const copy = new Map([...tables].map(([name, rows]) => [name, new Map(rows)]));
  const record = copy.get(table)?.get(id);
  if (record === undefined) throw new Error(`no ${table} ${id}`);
  const next = to(record);
  if (next === null) copy.get(table)?.delete(id);
  else copy.get(table)?.set(next.id, next);
  return copy;
};

describe('everything of one program', () => {
  it('comes into an empty one with no field of any record another: awkward records of every table', async () => {
    const tables = await randomTables(dice(seed), each, digest);
    expect(await checkRecords(tables as KeptTables, digest)).toEqual([]);
    for (const name of tableNames) expect(tables.get(name)?.size, name).toBe(name === 'preferences' ? 1 : each);
    const read = await readEverything(await snapshotText(frame, tables, digest), 'all.snapshot', digest);
    expect(fieldsOf(read.tables)).toEqual(fieldsOf(tables));
    const into = intoHere(new Map(), read.tables, { differing: 'keep' });
    expect(into).toMatchObject({ faults: [], differing: [], withoutLabel: [], lasts: true });
    const there = written(new Map(), into.puts);
    expect(fieldsOf(there)).toEqual(fieldsOf(tables));
    expect(await outcomeFaults(new Map(), into, digest)).toEqual([]);
    expect(intoHere(there, tables, { differing: 'take' }).puts).toEqual([]);
  });

  it('comes into a filled one beside what is there, and takes nothing away', async () => {
    const [here, file] = await Promise.all([
      randomTables(dice(seed + 1), 8, digest, 'here'),
      randomTables(dice(seed + 2), 8, digest, 'file'),
    ]);
    const into = intoHere(here, file, { differing: 'keep' });
    expect(into.faults).toEqual([]);
    for (const { table, added, differs, same, onlyHere } of into.tables)
      expect({ table, added, differs: differs + same, onlyHere }).toEqual(
        table === 'preferences'
          ? { table, added: 0, differs: 1, onlyHere: 0 }
          : { table, added: 8, differs: 0, onlyHere: 8 },
      );
    const after = written(here, into.puts);
    for (const [name, rows] of here) for (const [id, record] of rows) expect(after.get(name)?.get(id)).toBe(record);
    // Numbers of labels begin at 1 in both: each thing here keeps its own, and the other comes without.
    const labelsHere = new Set([...(here.get('items')?.values() ?? [])].map((item) => (item as Item).tag));
    const clash = [...(file.get('items')?.values() ?? [])].filter(
      (item) => (item as Item).tag !== undefined && labelsHere.has((item as Item).tag),
    );
    expect(clash.length).toBeGreaterThan(0);
    expect(into.withoutLabel).toEqual(clash);
    expect(await outcomeFaults(here, into, digest)).toEqual([]);
  });

  it('leaves what differs as it is, or takes the file’s, as it was chosen; settings and planned bags stay in any case', async () => {
    const here = await randomTables(dice(seed + 3), 3, digest);
    let file: AllTables = here;
    for (const [table, id] of [
      ['shelves', 'k_shelves-0'],
      ['notes', 'k_notes-1'],
    ] as const)
      file = changed(file, table, id, (record) => ({ ...record, name: 'Another name', rev: 77 }));
    file = changed(file, 'preferences', 'preferences', (record) => ({ ...record, person: 'Another' }) as AnyRecord);
    file = changed(file, 'sites', 'k_sites-2', (record) => ({ ...record, rev: 99 }));
    const kept = intoHere(here, file, { differing: 'keep' });
    expect(kept.puts).toEqual([]);
    expect(kept.differing.map(({ table, here: { id }, isChoice }) => [table, id, isChoice])).toEqual([
      ['shelves', 'k_shelves-0', true],
      ['notes', 'k_notes-1', true],
      ['preferences', 'preferences', false],
    ]);
    const taken = intoHere(here, file, { differing: 'take' });
    expect(taken.puts.map(({ table, record: { id } }) => [table, id])).toEqual([
      ['shelves', 'k_shelves-0'],
      ['notes', 'k_notes-1'],
    ]);
    for (const { table, record } of taken.puts) expect(record.rev).toBe(here.get(table)?.get(record.id)?.rev);
    expect(taken.lasts).toBe(false);
  });

  it('finds the same thing under another key by its code, and whatever names it goes by the key that is here', async () => {
    const here = await randomTables(dice(seed + 4), 4, digest);
    const at = here.get('interfaces')?.get('k_interfaces-1');
    if (at === undefined) throw new Error('no interface');
    const named = [...(here.get('steps')?.values() ?? [])].map((step) => ({ ...step, interface: at.id }) as AnyRecord);
    const withSteps = new Map([...here, ['steps', new Map(named.map((step) => [step.id, step]))]]) as AllTables;
    // In the other program the interface was typed anew.
    const renamed = changed(withSteps, 'interfaces', at.id, () => null);
    const file = new Map([
      ...renamed,
      ['interfaces', new Map([...(renamed.get('interfaces') ?? []), ['typed-there', { ...at, id: 'typed-there' }]])],
      ['steps', new Map(named.map((step) => [step.id, { ...step, interface: 'typed-there' } as AnyRecord]))],
    ]) as AllTables;
    const into = intoHere(withSteps, file, { differing: 'take' });
    expect(into.puts).toEqual([]);
    expect(into.tables.find(({ table }) => table === 'interfaces')).toMatchObject({ added: 0, same: 4, onlyHere: 0 });
  });

  it('keeps a label’s number with the thing that has it here, and gives one to a thing that has none', async () => {
    const here = changed(await randomTables(dice(seed + 5), 2, digest), 'items', 'k_items-0', (item) => {
      const { tag: _tag, ...bare } = item as Item;
      return bare as AnyRecord;
    });
    const labelled = changed(here, 'items', 'k_items-1', (item) => ({ ...item, tag: 2 }) as AnyRecord);
    const file = changed(
      changed(labelled, 'items', 'k_items-0', (item) => ({ ...item, tag: 900 }) as AnyRecord),
      'items',
      'k_items-1',
      (item) => ({ ...item, tag: 901 }) as AnyRecord,
    );
    const { puts, lasts } = intoHere(labelled, file, { differing: 'take' });
    expect(puts.map(({ record }) => [record.id, (record as Item).tag])).toEqual([['k_items-0', 900]]);
    expect(lasts).toBe(true);
  });

  it.each<[what: string, spoil: (tables: AllTables) => AllTables, says: RegExp]>([
    [
      'a frozen manifest has another content under the same key',
      (tables) =>
        changed(tables, 'revisions', 'k_revisions-0', (one) => ({ ...one, hash: 'f'.repeat(64) }) as AnyRecord),
      /^Revision 1 of .* has another content here under the same key$/,
    ],
    [
      'its number is another one here',
      (tables) => {
        const one = tables.get('revisions')?.get('k_revisions-0') as Revision;
        return changed(tables, 'revisions', one.id, () => ({ ...one, id: 'frozen-there' }));
      },
      /^Revision 1 of .* is another one here, frozen by /,
    ],
    [
      'a record went on in another way',
      (tables) => changed(tables, 'events', 'k_events-1', (one) => ({ ...one, hash: 'e'.repeat(64) }) as AnyRecord),
      /went on in another way here: event 2 is not the file’s event 2$/,
    ],
    [
      'a discrepancy says something else',
      (tables) => changed(tables, 'discrepancies', 'k_discrepancies-0', (one) => ({ ...one, pieces: 77 }) as AnyRecord),
      /^D-1 says something else here$/,
    ],
  ])('is not brought in where %s', async (_what, spoil, says) => {
    const here = await randomTables(dice(seed + 6), 3, digest);
    const { faults } = intoHere(here, spoil(here), { differing: 'keep' });
    expect(faults).toEqual([expect.stringMatching(says)]);
  });

  it('brings the closing of a discrepancy whatever is chosen, and events behind those that are here', async () => {
    const file = await randomTables(dice(seed + 7), 3, digest);
    const closed = {
      at: '2031-04-06T08:00:00Z',
      by: { name: 'Q.', role: 'counter' },
      how: 'found',
      words: 'In the box.',
    };
    const open = changed(file, 'discrepancies', 'k_discrepancies-1', (one) => {
      const { closed: _closed, ...rest } = one as Discrepancy;
      return rest as AnyRecord;
    });
    const shut = changed(open, 'discrepancies', 'k_discrepancies-1', (one) => ({ ...one, closed }) as never);
    const here = changed(open, 'events', 'k_events-2', () => null);
    const into = intoHere(here, shut, { differing: 'keep' });
    expect(into.faults).toEqual([]);
    expect(into.puts.map(({ table, record }) => [table, record.id])).toEqual([
      ['events', 'k_events-2'],
      ['discrepancies', 'k_discrepancies-1'],
    ]);
    // The other way round there is nothing to bring.
    expect(intoHere(shut, here, { differing: 'take' }).puts).toEqual([]);
  });

  it('is told where the outcome would not be whole: a step of an outing that has another code here', async () => {
    const file = await randomTables(dice(seed + 8), 2, digest);
    const step = [...(file.get('steps')?.values() ?? [])][0] as AnyRecord & { task: string; outing: string };
    const outing = [...(file.get('outings')?.values() ?? [])].find(
      (one) => (one as typeof step).task === step.task && (one as { code?: string }).code === step.outing,
    );
    if (outing === undefined) throw new Error('no outing');
    const without = [...(file.get('steps')?.keys() ?? [])].reduce<AllTables>(
      (tables, id) => changed(tables, 'steps', id, () => null),
      file,
    );
    const here = changed(without, 'outings', outing.id, (one) => ({ ...one, code: 'renamed' }) as AnyRecord);
    const into = intoHere(here, file, { differing: 'keep' });
    const faults = await outcomeFaults(here, into, digest);
    expect(faults.map(({ rule }) => rule)).toContain('lost');
    expect(faults[0]?.message).toMatch(/^outing names .*, which its task has not$/);
  });
});
