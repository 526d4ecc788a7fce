/** What a snapshot goes on from: the one before where it is whole, and every line of the journal where it is not. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { bytesOf, linesOf, readSnapshot } from '../../electron/journal/snapshots/format.ts';
import type { Change } from '../../shared-types/journal.ts';
import { recordsVersion } from '../../shared-types/records/index.ts';
import { resummed } from '../campaign/snapshots.ts';
import { dice } from '../reference/dice.ts';
import { comes, goes } from './support/journalUnderTest.ts';
import { kept } from './support/keptSnapshots.ts';

/** All but when it was made. */
function recordsOf(bytes: Buffer): unknown {
  const read = readSnapshot(bytes);
  return 'reason' in read ? read : [{ ...read.head, utc: '' }, [...read.tables]];
}

const hashOf = (digit: string): string => `"hash":"${digit.repeat(64)}"`;
const version = (records: number): string => `"records":${records}`;

it('is the same whether it was made from the first line on or from the one before', async () => {
  const { keeper, add, folder, names, everyLine } = await kept(40);
  const chance = dice(20_310_405);
  for (let round = 0; round < 25; round += 1) {
    const some = (): string => `s${chance.whole(1, 60)}`;
    const change = (id: string): Change => (chance.whole(0, 3) === 0 ? goes(id) : comes(id, `Ständer ${round} ½`));
    const ids = new Set(Array.from({ length: chance.whole(1, 6) }, some));
    await add(...[...ids].map(change));
    const made = await keeper.make('asked');
    expect(recordsOf(readFileSync(join(folder, made?.name ?? '')))).toEqual(recordsOf(await everyLine()));
  }
  expect(names().length).toBeGreaterThanOrEqual(20);
});

it('has one text for its records, however their names stand', async () => {
  const { keeper, add, folder } = await kept(2);
  // Names that are numbers stand in another order in memory than in the journal.
  const odd = { id: 'c1', rev: 1, list: 'l', position: 1, cells: { 9: 'M8', id: 'A', 10: '24 N·m' } };
  const plain = { ...odd, id: 'c2', cells: { id: 'B' } };
  const [first, second] = [odd, plain].map((after): Change => ({
    table: 'callouts',
    id: after.id,
    before: null,
    after,
  }));
  if (first === undefined || second === undefined) throw new Error('no changes');
  await add(comes('before'), first, second, comes('behind'));
  const made = await keeper.make('asked');
  const bytes = readFileSync(join(folder, made?.name ?? ''));
  expect(bytes.toString('utf8')).toContain('"cells":{"10":"24 N·m","9":"M8","id":"A"}');
  const read = readSnapshot(bytes);
  if ('reason' in read) throw new Error(read.reason);
  const { seq, hash, deviceId, utc, why } = read.head;
  expect(Buffer.concat(bytesOf({ seq, hash, deviceId, utc, why }, linesOf(read.tables)).pieces).equals(bytes)).toBe(
    true,
  );
});

it.each<[string, (bytes: Buffer) => Buffer]>([
  ['was cut', (bytes) => bytes.subarray(0, -9)],
  ['has a bit turned', (bytes) => Buffer.from(bytes.toString('latin1').replace('Store', 'Stope'), 'latin1')],
  ['is of another journal', (bytes) => resummed(bytes, (text) => text.replace(/"hash":"\w{64}"/, hashOf('f')))],
  ['counts wrongly', (bytes) => resummed(bytes, (text) => text.replace('"shelves":5', '"shelves":4'))],
  ['has lost a record', (bytes) => resummed(bytes, (text) => text.replace(/\n\["shelves".*?\n/, '\n'))],
  ['has another record', (bytes) => resummed(bytes, (text) => text.replace('Store s2', 'Store s9'))],
  ['is of a newer program', (bytes) => resummed(bytes, (text) => text.replace(version(recordsVersion), version(99)))],
  ['is of an earlier one', (bytes) => resummed(bytes, (text) => text.replace(version(recordsVersion), version(1)))],
  [
    'is of an earlier one and no record of it',
    (bytes) =>
      resummed(bytes, (text) => text.replace(version(recordsVersion), version(1)).replace('"name":"Store s2",', '')),
  ],
])('comes out the same where the one before %s', async (_what, damaged) => {
  const { keeper, add, folder, names, everyLine } = await kept(5);
  await keeper.make('asked');
  const [before = ''] = names();
  const bytes = readFileSync(join(folder, before));
  expect(damaged(bytes).equals(bytes)).toBe(false);
  writeFileSync(join(folder, before), damaged(bytes));
  await add(comes('s99'), goes('s1'));
  const made = await keeper.make('asked');
  expect(recordsOf(readFileSync(join(folder, made?.name ?? '')))).toEqual(recordsOf(await everyLine()));
});

it('is given back in pages that a window takes in without a halt, each record once and in order', async () => {
  const { keeper, add } = await kept(0);
  const named = (count: number): Change => comes(`s${String(count).padStart(5, '0')}`, 'Ständer ½ '.repeat(20));
  const ids = Array.from({ length: 12 }, (_, entry) => Array.from({ length: 500 }, (_none, at) => entry * 500 + at));
  for (const some of ids) await add(...some.map(named));
  const made = await keeper.make('asked');
  const read: unknown[] = [];
  const sizes: number[] = [];
  for (let from: number | null = 0; from !== null;) {
    const page = await keeper.read({ name: made?.name ?? '', from });
    read.push(...page.records.map(([, record]) => record['id']));
    sizes.push(JSON.stringify(page.records).length);
    from = page.next;
  }
  expect(read).toEqual(ids.flat().map((count) => named(count).id));
  expect(sizes.length).toBeGreaterThan(1);
  expect(Math.max(...sizes)).toBeLessThan(1.1 * 1024 * 1024);
});
