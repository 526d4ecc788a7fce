/** Snapshots that go further than the journal: found as it is opened, until a person says that it is meant. */
import { cpSync, readdirSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { journalDesk } from '../../electron/journal/desk.ts';
import { realDisk } from '../../electron/files/disk.ts';
import { snapshotKeeper } from '../../electron/journal/snapshots/keeper.ts';
import { nameOfSnapshot } from '../../shared-types/snapshot.ts';
import { comes, goes, journalUnderTest, request, steadyClock } from './support/journalUnderTest.ts';
import { scratchFolder } from './support/site.ts';
import { kept } from './support/keptSnapshots.ts';

/** A journal that ends there, and of whose entries a snapshot knows none. */
const end = (seq: number, deviceId = 'b'.repeat(32)) => ({ seq, deviceId, hashAt: async () => 'f'.repeat(64) });

/** A keeper as after the journal was replaced by one that ends earlier. */
const after = (folder: string, seq: number) =>
  snapshotKeeper({
    folder,
    journal: async () => ({ seq, hash: 'a'.repeat(64), deviceId: 'b'.repeat(32), place: '/nowhere' }),
  });

it('the one that goes furthest and is whole is found, with those beyond it that are not; what goes no further or has no name is passed over', async () => {
  const { keeper, folder, add, names } = await kept(12);
  await keeper.make('asked');
  await add(comes('s20'));
  await keeper.make('asked');
  await add(comes('s21'));
  await keeper.make('asked');
  writeFileSync(join(folder, 'notes.snapshot'), 'x');
  expect(await keeper.further(end(14))).toBeNull();
  expect((await keeper.list()).otherNames).toEqual(['notes.snapshot']);
  expect(await keeper.further(end(12))).toMatchObject({ whole: { seq: 14, records: 14 }, damaged: null });
  const [, second = '', furthest = ''] = names().toSorted();
  truncateSync(join(folder, furthest), 400);
  expect(await keeper.further(end(12))).toEqual({
    whole: { name: second, utc: expect.any(String), seq: 13, records: 13 },
    damaged: { count: 1, seq: 14 },
  });
  truncateSync(join(folder, second), 400);
  expect(await keeper.further(end(12))).toEqual({ whole: null, damaged: { count: 2, seq: 14 } });
  expect(await keeper.further(end(0))).toMatchObject({
    whole: { seq: 12, records: 12 },
    damaged: { count: 2, seq: 14 },
  });
});

it('is listed below those of the journal that is there now', async () => {
  const { keeper, add } = await kept(12);
  const seqs = async (of: typeof keeper) => (await of.list()).snapshots.map(({ seq }) => seq);
  await keeper.make('asked');
  await add(comes('s20'));
  await keeper.make('asked');
  expect(await seqs(keeper)).toEqual([13, 12]);
  // The journal was replaced, and goes on past their numbers.
  const { folder } = await keeper.list();
  const later = after(folder, 9);
  expect(await later.furtherAtOpening(end(9))).toMatchObject({ whole: { seq: 13 }, damaged: null });
  expect(await seqs(later)).toEqual([13, 12]);
  writeFileSync(
    join(folder, nameOfSnapshot({ utc: '2031-04-05T10:20:30Z', seq: 10, why: 'asked', again: 0 })),
    'of the new one',
  );
  expect(await seqs(later)).toEqual([10, 13, 12]);
});

it('stays named where a journal has gone on past its number, and is not once its own is back', async () => {
  const { keeper, folder, add } = await kept(12);
  await keeper.make('asked');
  const made = await keeper.read({ name: (await keeper.list()).snapshots[0]?.name ?? '', from: 0 });
  const opened = after(folder, 5);
  // Looking is not noting.
  expect(await opened.further(end(5))).toMatchObject({ whole: { seq: 12 }, damaged: null });
  expect(await opened.further(end(40))).toBeNull();
  expect(await opened.furtherAtOpening(end(5))).toMatchObject({ whole: { seq: 12 }, damaged: null });
  expect((await opened.list()).snapshots.map(({ further }) => further)).toEqual([true]);
  expect(await opened.furtherAtOpening(end(40))).toMatchObject({ whole: { seq: 12 }, damaged: null });
  expect(await opened.further(end(40))).toMatchObject({ whole: { seq: 12 }, damaged: null });
  // Its own journal, gone on.
  const back = { ...end(13), hashAt: async (seq: number) => (seq === 12 ? made.head.hash : null) };
  await add(comes('s20'));
  expect(await keeper.furtherAtOpening(back)).toBeNull();
  expect((await keeper.list()).snapshots.map(({ further }) => further)).toEqual([false]);
});

it('is named no more once it is said to be meant, until one goes further again', async () => {
  const { keeper, folder, add } = await kept(12);
  await keeper.make('asked');
  const opened = after(folder, 5);
  expect(await opened.further(end(5))).toMatchObject({ whole: { seq: 12 }, damaged: null });
  // Another thing that may be meant says nothing of it.
  await opened.meant({ what: 'less-is-kept' });
  expect(await opened.further(end(5))).toMatchObject({ whole: { seq: 12 }, damaged: null });
  await opened.meant({ what: 'snapshots-go-further' });
  expect(await after(folder, 5).further(end(5))).toBeNull();
  await add(comes('s20'));
  await keeper.make('asked');
  expect(await opened.further(end(5))).toMatchObject({ whole: { seq: 13 }, damaged: null });
});

it('is told of where that cannot be noted', async () => {
  const { keeper, folder } = await kept(12);
  await keeper.make('asked');
  const disk = { ...realDisk, open: () => Promise.reject(Object.assign(new Error('no'), { code: 'ENOSPC' })) };
  const full = snapshotKeeper({ folder, journal: () => Promise.reject(new Error('not asked')), disk });
  expect(await full.furtherAtOpening(end(5))).toMatchObject({ whole: { seq: 12, records: 12 } });
});

it('is named no more up to the one that was restored; what goes further still stays named', async () => {
  const { keeper, folder, add } = await kept(12);
  await keeper.make('asked');
  await add(comes('s20'));
  await keeper.make('asked');
  const opened = after(folder, 5);
  await opened.furtherAtOpening(end(5));
  await opened.meant({ what: 'snapshots-go-further', through: 12 });
  expect((await opened.list()).snapshots.map(({ seq, further }) => [seq, further])).toEqual([
    [13, true],
    [12, false],
  ]);
  expect(await opened.furtherAtOpening(end(30))).toMatchObject({ whole: { seq: 13 }, damaged: null });
});

it('is named again where the journal in which it was meant is lost in its turn, or is an older copy', async () => {
  const { keeper, folder } = await kept(12);
  await keeper.make('asked');
  const opened = after(folder, 7);
  await opened.meant({ what: 'snapshots-go-further' });
  expect(await opened.further(end(7))).toBeNull();
  expect(await opened.further(end(8))).toBeNull();
  expect(await opened.further(end(6))).toMatchObject({ whole: { seq: 12 } });
  expect(await opened.further(end(9, 'c'.repeat(32)))).toMatchObject({ whole: { seq: 12 } });
});

it('is no measure of what a journal begun anew should hold: its own last one is', async () => {
  const { keeper, folder, add } = await kept(12);
  for (let time = 0; time < 4; time += 1) {
    await add(comes(`x${time}`));
    await keeper.make('asked');
  }
  const journal = journalUnderTest();
  await journal.open();
  const next = snapshotKeeper({ folder, journal: () => journal.standing(), clock: steadyClock() });
  for (let seq = 1; seq <= 8; seq += 1) await journal.add(seq);
  const own = { ...end(8), deviceId: (await journal.standing()).deviceId };
  expect(await next.furtherAtOpening(own)).toMatchObject({ whole: { seq: 16 } });
  await next.meant({ what: 'snapshots-go-further' });
  expect((await next.make('half-hour'))?.seq).toBe(8);
  expect(await next.make('half-hour')).toBeNull();
  expect((await next.list()).shrunk).toBeNull();
  await journal.add(9, { changes: ['s1', 's2', 's3', 's4'].map((id) => goes(id)) });
  await next.make('half-hour');
  expect((await next.list()).shrunk).toEqual({ from: 8, to: 4, tables: [] });
});

it('the second folder is looked into only where the journal is empty: others may keep theirs there', async () => {
  const { keeper, folder, names } = await kept(12);
  const second = scratchFolder();
  await keeper.setSecond(second);
  await keeper.make('asked');
  for (const name of names()) rmSync(join(folder, name));
  expect(await after(folder, 5).further(end(5))).toBeNull();
  expect(await after(folder, 0).further(end(0))).toMatchObject({ whole: { seq: 12, records: 12 }, damaged: null });
});

it('in the second folder only what was copied there from here is cleared away', async () => {
  const { keeper, add } = await kept(3);
  const second = scratchFolder();
  await keeper.setSecond(second);
  const others = Array.from({ length: 30 }, (_, at) =>
    nameOfSnapshot({ utc: `2030-01-01T08:${at + 10}:00Z`, seq: at + 1, why: 'half-hour', again: 0 }),
  );
  for (const name of others) writeFileSync(join(second, name), 'of another');
  for (let time = 0; time < 25; time += 1) {
    await add(comes(`x${time}`));
    await keeper.make('half-hour');
    // Chosen again, it is still known what was copied there.
    if (time === 12) await keeper.setSecond(second);
  }
  const left = readdirSync(second).filter((name) => name.endsWith('.snapshot'));
  expect(left.filter((name) => others.includes(name))).toHaveLength(30);
  expect(left.length - 30).toBeLessThan(25);
  expect(left.length - 30).toBeGreaterThanOrEqual(20);
});

it('is told with what an opening finds: journal deleted, or replaced by an older one', async () => {
  const data = scratchFolder();
  const folder = join(data, 'journal');
  const desk = journalDesk({ folder });
  const lease = (): string => desk.lease.take({ takeOver: true }, () => undefined)?.id ?? '';
  expect(await desk.open()).toMatchObject({ seq: 0, further: null });
  const append = async (seq: number) =>
    desk.append({ ...request(seq, { changes: [comes(`s${seq}`)] }), lease: lease() });
  await append(1);
  const older = join(data, 'older');
  cpSync(folder, older, { recursive: true });
  await append(2);
  await desk.snapshots.make('asked');
  expect(await desk.open()).toMatchObject({ seq: 2, further: null });
  desk.close();

  rmSync(folder, { recursive: true });
  const emptied = journalDesk({ folder });
  expect(await emptied.open()).toMatchObject({ seq: 0, further: { whole: { seq: 2, records: 2 }, damaged: null } });
  emptied.close();
  rmSync(folder, { recursive: true });
  cpSync(older, folder, { recursive: true });
  rmSync(join(folder, 'lock'), { force: true, recursive: true });
  const replaced = journalDesk({ folder });
  expect(await replaced.open()).toMatchObject({ seq: 1, further: { whole: { seq: 2, records: 2 }, damaged: null } });
  replaced.close();
  // A folder that cannot be read keeps nobody from the journal.
  rmSync(join(data, 'snapshots'), { recursive: true });
  writeFileSync(join(data, 'snapshots'), 'no folder');
  const bare = journalDesk({ folder });
  expect(await bare.open()).toMatchObject({ seq: 1, further: null });
  bare.close();
});
