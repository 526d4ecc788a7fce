/** Files of every earlier version, brought up, brought in, taken out and brought in again; held against what was typed into them. */
import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { bytesOf, linesOf } from '../../../electron/journal/snapshots/format.ts';
import { intoHere } from '../../../renderer/engine/everything/intoHere.ts';
import { readEverything } from '../../../renderer/engine/everything/readEverything.ts';
import { snapshotText } from '../../../renderer/engine/everything/readSnapshotText.ts';
import type { AllTables } from '../../../renderer/engine/everything/readSnapshotText.ts';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import type { AnyRecord, TableName } from '../../../shared-types/records/index.ts';
import { recordSchemas, recordsVersion, tableNames } from '../../../shared-types/records/index.ts';
import { broughtUp, knewTable } from '../../../shared-types/records/versions.ts';
import { goldenTables } from '../../support/released/index.ts';
import { digest, released } from './released.ts';

const plain = (tables: AllTables, without: (keyof AnyRecord)[] = []) =>
  Object.fromEntries(
    tableNames.map((name) => [
      name,
      Object.fromEntries(
        [...(tables.get(name) ?? [])].map(([id, record]) => [
          id,
          Object.fromEntries(Object.entries(record).filter(([field]) => !without.includes(field as 'rev'))),
        ]),
      ),
    ]),
  );

const nothing: AllTables = new Map();

const afterwards = (here: AllTables, puts: { table: TableName; record: AnyRecord }[]): AllTables => {
  const tables = new Map([...here].map(([name, rows]) => [name, new Map(rows)]));
  for (const { table, record } of puts) {
    const own = tables.get(table) ?? new Map<string, AnyRecord>();
    tables.set(table, own.set(record.id, { ...record, rev: record.rev + 1 }));
  }
  return tables;
};

const frame = {
  ...{ seq: 7, hash: 'a'.repeat(64), deviceId: 'b'.repeat(32), utc: '2031-04-05T10:20:30.000Z' },
  why: 'asked' as const,
};

describe.each(released)('everything of version $version', (one) => {
  const golden = goldenTables(one);

  it('reads as what was typed, field by field', async () => {
    for (const [text, kind] of [
      [one.everything, 'export'],
      [one.snapshot, 'snapshot'],
    ] as const) {
      if (text === null) continue;
      const read = await readEverything(text, 'old.file', digest);
      expect(read).toMatchObject({ kind, records: one.version });
      expect(plain(read.tables)).toEqual(plain(golden));
    }
  });

  it('comes into an empty program whole, goes out as a snapshot, and comes in again the same', async () => {
    const { tables } = await readEverything(one.everything, 'old.json', digest);
    const into = intoHere(nothing, tables, { differing: 'keep' });
    expect(into).toMatchObject({ faults: [], differing: [], withoutLabel: [] });
    const kept = afterwards(nothing, into.puts);
    const out = await snapshotText(frame, kept, digest);
    const again = await readEverything(out, 'new.snapshot', digest);
    expect(again.records).toBe(recordsVersion);
    expect(plain(again.tables, ['rev'])).toEqual(plain(golden, ['rev']));
    expect(intoHere(kept, again.tables, { differing: 'take' }).puts).toEqual([]);
    expect(intoHere(kept, tables, { differing: 'take' }).puts).toEqual([]);
  });

  it('goes by its working copy where its journal was changed by one sign, and says so', async () => {
    const broken = one.everything.replace('"title":"Add items"', '"title":"Add itemz"');
    const read = await readEverything(broken, 'old.json', digest);
    expect(read.by).toEqual({
      ...{ half: 'copy', name: 'bagwright-1' },
      because: 'entry 2: its content is not what its hash says',
    });
    expect(plain(read.tables)).toEqual(plain(golden));
  });

  it('is refused where neither half is whole, with both reasons', async () => {
    const broken = one.everything
      .replace('"title":"Add items"', '"title":"Add itemz"')
      .replace(/("shelves":\[\s*\{"id":"Z_-9")/, '$1,"colour":1');
    const error: unknown = await readEverything(broken, 'old.json', digest).catch((cause: unknown) => cause);
    expect(error).toBeInstanceOf(RefusedError);
    expect((error as RefusedError).refusal).toMatchObject({
      message: expect.stringMatching(/entry 2: its content .*; and in its working copy /) as string,
      field: expect.stringMatching(/^workingCopies\.tables\.shelves\./) as string,
      file: 'old.json',
    });
  });

  it('holds no table that its version did not have', () => {
    for (const table of golden.keys()) expect(knewTable(one.version, table), table).toBe(true);
  });

  it('comes up by way of any version between as it does at once, and is whole then', () => {
    for (const [table, records] of golden)
      for (const record of records.values()) {
        const atOnce = broughtUp(table, record, one.version);
        expect(recordSchemas[table].safeParse(atOnce).success).toBe(true);
        for (let by = one.version; by <= recordsVersion; by += 1)
          expect(broughtUp(table, broughtUp(table, record, one.version, by), by)).toEqual(atOnce);
      }
  });
});

it('a window writes the very bytes of a snapshot that the program around it writes', async () => {
  for (const one of released) {
    const tables = goldenTables(one);
    const bytes = Buffer.concat(bytesOf(frame, linesOf(tables as never)).pieces);
    const text = await snapshotText(frame, tables, digest);
    expect(createHash('sha256').update(text).digest('hex')).toBe(createHash('sha256').update(bytes).digest('hex'));
  }
});
