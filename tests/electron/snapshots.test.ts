/** Snapshots on the disk: written whole or not at all, read only whole, cleared away by a rule, and never while much is missing. */
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { bytesOf, linesOf, readSnapshot } from '../../electron/journal/snapshots/format.ts';
import { keepBeforeNewVersion } from '../../electron/journal/snapshots/newVersion.ts';
import { pastTheirTime } from '../../electron/journal/snapshots/rotate.ts';
import { shrinkOf } from '../../electron/journal/snapshots/shrink.ts';
import { HostRefusal } from '../../electron/site/refusal.ts';
import { recordsVersion } from '../../shared-types/records/index.ts';
import { nameOfSnapshot, readSnapshotName } from '../../shared-types/snapshot.ts';
import { corruptSnapshots, resummed, snapshotKills, snapshotThrows } from '../campaign/snapshots.ts';
import { expectSurvived } from '../campaign/support/survived.ts';
import { comes, goes } from './support/journalUnderTest.ts';
import { freshFolder, kept } from './support/keptSnapshots.ts';

async function refusalOf(work: Promise<unknown>) {
  const error: unknown = await work.then(
    () => null,
    (reason: unknown) => reason,
  );
  if (!(error instanceof HostRefusal)) throw new Error(`not refused: ${String(error)}`);
  return error.refusal;
}

describe('a snapshot', () => {
  it('holds what the journal comes to, and gives it back page by page', async () => {
    const { keeper, add } = await kept(12);
    await add(comes('odd', 'Ständer ½ \u202Eabc'), goes('s3'));
    const made = await keeper.make('asked');
    expect(made).toMatchObject({ seq: 13, why: 'asked', places: ['here'] });
    const { head, records, next } = await keeper.read({ name: made?.name ?? '', from: 0 });
    expect(head).toMatchObject({ seq: 13, records: recordsVersion, counts: { shelves: 12 } });
    expect(next).toBeNull();
    expect(records).toHaveLength(12);
    expect(records).toContainEqual(['shelves', { id: 'odd', rev: 1, name: 'Ständer ½ \u202Eabc' }]);
    expect(records.map(([, record]) => record['id'])).not.toContain('s3');
  });

  it('is made from time to time only where something was written since', async () => {
    const { keeper, add } = await kept(3);
    expect(await keeper.make('half-hour')).not.toBeNull();
    expect(await keeper.make('half-hour')).toBeNull();
    expect(await keeper.make('leaving')).toBeNull();
    expect(await keeper.make('before-restore')).not.toBeNull();
    await add(comes('more'));
    expect(await keeper.make('half-hour')).not.toBeNull();
  });

  it('is refused with its reason where a bit of it is turned, it is cut, or something else has its name', () =>
    expectSurvived(corruptSnapshots, 102));

  it('is refused where it is of a newer program, of something else, or holds a record twice or no record at all', async () => {
    const { keeper, folder } = await kept(1);
    await keeper.make('asked');
    const name = nameOfSnapshot({ utc: '2031-04-05T10:20:30Z', seq: 9, why: 'asked', again: 0 });
    const frame = {
      seq: 9,
      hash: 'a'.repeat(64),
      deviceId: 'b'.repeat(32),
      utc: '2031-04-05T10:20:30.000Z',
      why: 'asked' as const,
    };
    const shelves = (records: [string, object][]): Buffer =>
      Buffer.concat(bytesOf(frame, linesOf(new Map([['shelves', new Map(records as never)]]))).pieces);
    const sound = shelves([['s', { id: 's', rev: 1, name: 'S' }]]);
    expect(readSnapshot(sound)).toHaveProperty('tables');
    for (const [bytes, reason] of [
      [Buffer.alloc(0), /not whole/],
      [Buffer.from('{"bagwright":"plan"}\n'), /not whole/],
      [shelves([['s', { id: 's', rev: 1 }]]), /line 2: shelves\.name/],
      [
        shelves([
          ['s', { id: 's', rev: 1, name: 'S' }],
          ['t', { id: 's', rev: 1, name: 'S' }],
        ]),
        /line 3: shelves: s is there twice/,
      ],
      [
        resummed(sound, (text) => text.replace(`"records":${recordsVersion}`, '"records":99')),
        /version 99; this program knows/,
      ],
      [resummed(sound, (text) => text.replace('"snapshot"', '"plan"')), /not a snapshot of this program/],
      [resummed(sound, (text) => text.replace('"shelves":1', '"shelves":2')), /holds 1 of shelves where it says 2/],
      [resummed(sound, (text) => text.replace('["shelves"', '["shelfs"')), /names no table/],
    ] as const) {
      writeFileSync(join(folder, name), bytes);
      expect((await refusalOf(keeper.read({ name, from: 0 }))).message).toMatch(reason);
    }
  });
});

describe('writing a snapshot', () => {
  it('goes by another name first, is synced, read back, renamed, and its folder synced, in this order', async () => {
    const { keeper, disk } = await kept(3);
    disk.log.length = 0;
    const made = await keeper.make('asked');
    const steps = disk.log.filter((line) => /\.part|\.snapshot|sync/.test(line));
    const order = ['open .', 'write .', 'sync .', 'close .', 'readFile .', 'rename ', 'sync '];
    let at = -1;
    for (const step of order) {
      const found = steps.findIndex((line, place) => place > at && line.startsWith(step));
      expect(found, `${step} after ${at}: ${steps.join('; ')}`).toBeGreaterThan(at);
      at = found;
    }
    expect(steps.some((line) => line.startsWith('open ') && line.includes(made?.name ?? 'x'))).toBe(true);
  });

  it('leaves the one before whole and nothing half under its name, whichever step fails', () =>
    expectSurvived(snapshotThrows, 42));

  it('or is killed in', () => expectSurvived(snapshotKills, 7));

  it('tries again where another program holds the file, and says so where it does not let go', async () => {
    const { keeper, disk, names } = await kept(3);
    disk.fail({ call: 'rename', code: 'EBUSY', nth: 1, times: 3, named: /\.(?:part|snapshot)$/ });
    expect(await keeper.make('asked')).not.toBeNull();
    disk.heal();
    disk.fail({ call: 'rename', code: 'EPERM', nth: 1, times: 10_000, named: /\.(?:part|snapshot)$/ });
    disk.log.length = 0;
    await expect(keeper.make('asked')).rejects.toThrow(/EPERM/);
    expect(disk.log.filter((line) => line.startsWith('rename')).length).toBeGreaterThan(5);
    // Never written plainly over or beside.
    expect(names()).toHaveLength(1);
  });
});

describe('clearing away', () => {
  it('keeps, after two hundred days, twenty last, fourteen days, eight weeks, and all from before something', () => {
    const names: string[] = [];
    let seq = 0;
    for (let day = 0; day < 200; day += 1) {
      for (const hour of [8, 12, 16]) {
        seq += 1;
        const utc = new Date(Date.UTC(2031, 0, 6 + day, hour)).toISOString();
        names.push(
          nameOfSnapshot({ utc, seq, why: day % 40 === 0 && hour === 8 ? 'before-restore' : 'half-hour', again: 0 }),
        );
        for (const gone of pastTheirTime(names, seq)) names.splice(names.indexOf(gone), 1);
      }
    }
    const read = names.map((name) => ({ name, ...readSnapshotName(name) }));
    expect(read.filter(({ why }) => why === 'before-restore')).toHaveLength(5);
    const bySeq = read.toSorted((a, b) => (b.seq ?? 0) - (a.seq ?? 0));
    expect(bySeq.slice(0, 20).map((one) => one.seq)).toEqual(Array.from({ length: 20 }, (_, at) => seq - at));
    expect(new Set(read.map((one) => one.utc?.slice(0, 10)).filter((day) => (day ?? '') >= '2031-07-11')).size).toBe(
      14,
    );
    const weeks = new Set(read.map((one) => Math.floor((Date.parse(one.utc ?? '') / 86_400_000 + 3) / 7)));
    const lastWeek = Math.max(...weeks);
    for (let back = 0; back < 8; back += 1) expect(weeks).toContain(lastWeek - back);
    // No more than the rule says: 20 last cover seven days, 7 more days, 6 more weeks, 5 from before.
    expect(names.length).toBeLessThanOrEqual(20 + 14 + 8 + 5);
    expect(pastTheirTime([...names, 'notes.txt', 'other.snapshot'], seq)).toEqual([]);
  });

  it('keeps the last twenty from before a removal or a large change, and no more of them', () => {
    const names = Array.from({ length: 300 }, (_, at) =>
      nameOfSnapshot({
        ...{ utc: new Date(Date.UTC(2031, 0, 6, 8, at)).toISOString(), seq: at + 1, again: 0 },
        why: at % 5 === 0 ? (at % 10 === 0 ? 'before-deletion' : 'before-large-change') : 'asked',
      }),
    );
    const gone = new Set(pastTheirTime(names, 300));
    const left = names.filter((name) => !gone.has(name)).map((name) => readSnapshotName(name));
    const before = left.filter((one) => one?.why.startsWith('before-') === true).map((one) => one?.seq);
    expect(before).toEqual(Array.from({ length: 20 }, (_, at) => 201 + 5 * at));
    // Of one day: the twenty last, four of which are among those from before something.
    expect(left).toHaveLength(20 + 16);
  });

  it('goes by what a snapshot holds where the clock went back', () => {
    const at = (seq: number, day: number): string =>
      nameOfSnapshot({ utc: new Date(Date.UTC(2031, 0, day)).toISOString(), seq, why: 'half-hour', again: 0 });
    const names = Array.from({ length: 40 }, (_, one) => at(one + 1, 60 - one));
    for (const newest of names.slice(-20)) expect(pastTheirTime(names, 40)).not.toContain(newest);
  });

  it('clears away nothing of a journal begun anew for what is left of the one before it', () => {
    const of = (seq: number, minute: number): string =>
      nameOfSnapshot({
        ...{ utc: new Date(Date.UTC(2031, 0, 6, 8, minute)).toISOString(), seq, why: 'half-hour', again: 0 },
      });
    const former = Array.from({ length: 20 }, (_, at) => of(1001 + at, at));
    const own = Array.from({ length: 5 }, (_, at) => of(1 + at, 30 + at));
    expect(pastTheirTime([...former, ...own], 5)).toEqual([]);
    // Once it has come as far, they are the older ones.
    expect(pastTheirTime([...former, of(1021, 50)], 1021)).toEqual([of(1001, 0)]);
  });

  it('is not done while far less is kept than was, until a person says that it is meant', async () => {
    const { keeper, add, names } = await kept(10);
    for (let time = 0; time < 25; time += 1) {
      await add(comes(`x${time}`));
      await keeper.make('half-hour');
    }
    const kept25 = names().length;
    expect(kept25).toBeLessThan(25);
    await add(...Array.from({ length: 10 }, (_, at) => goes(`s${at + 1}`)));
    await keeper.make('half-hour');
    expect((await keeper.list()).shrunk).toEqual({ from: 35, to: 25, tables: [] });
    for (let time = 0; time < 30; time += 1) {
      await add(comes(`y${time}`));
      await keeper.make('half-hour');
    }
    // None of those from before is gone.
    expect(names().length).toBe(kept25 + 31);
    await keeper.meant({ what: 'less-is-kept' });
    await add(comes('z'));
    await keeper.make('half-hour');
    expect((await keeper.list()).shrunk).toBeNull();
    expect(names().length).toBeLessThan(30);
  });

  it('knows an emptied table, and lets what a window keeps for itself come and go', () => {
    expect(shrinkOf({ items: 100, tasks: 1 }, { items: 100, tasks: 0 })).toEqual({
      from: 101,
      to: 100,
      tables: ['tasks'],
    });
    expect(shrinkOf({ items: 100, results: 3 }, { items: 99, results: 0 })).toBeNull();
    expect(shrinkOf({ items: 100 }, { items: 79 })).toEqual({ from: 100, to: 79, tables: [] });
    expect(shrinkOf({ items: 100 }, { items: 80 })).toBeNull();
    expect(shrinkOf({}, { items: 3 })).toBeNull();
  });
});

describe('from before a change', () => {
  it('one of this moment is enough for the same reason, and another reason has its own', async () => {
    const { keeper, add, names } = await kept(3);
    expect(await keeper.make('before-deletion')).toMatchObject({ why: 'before-deletion', seq: 3 });
    expect(await keeper.make('before-deletion')).toBeNull();
    expect(await keeper.make('before-recovery')).not.toBeNull();
    expect(names()).toHaveLength(2);
    await add(comes('more'));
    expect(await keeper.make('before-deletion')).not.toBeNull();
  });

  it('a program of another version, or of other records, has what it found kept, once, and never of nothing', async () => {
    const { keeper, folder, names, disk, add } = await kept(2);
    const begins = (program: string, seq: number) => keepBeforeNewVersion({ folder, keeper, program, seq, disk });
    await begins('1.0.0', 0);
    expect(names()).toEqual([]);
    await begins('1.0.0', 2);
    expect(names()).toEqual([]);
    await begins('1.1.0', 2);
    expect(names().map((name) => readSnapshotName(name)?.why)).toEqual(['before-new-version']);
    await add(comes('more'));
    await begins('1.1.0', 3);
    expect(names()).toHaveLength(1);
    // A note that is of other shapes of records, or none at all.
    for (const [at, note] of [
      `{"program":"1.1.0","records":${recordsVersion - 1}}`,
      'not a note',
      '{"program":7}',
    ].entries()) {
      await add(comes(`n${at}`));
      writeFileSync(join(folder, 'program.json'), note);
      await begins('1.1.0', 4 + at);
      expect(names()).toHaveLength(2 + at);
    }
  });

  it('where it cannot be made, it is tried again at the next beginning', async () => {
    const { keeper, folder, names, disk } = await kept(2);
    const begins = () => keepBeforeNewVersion({ folder, keeper, program: '2.0.0', seq: 2, disk });
    disk.fail({ call: 'rename', code: 'EIO', nth: 1, times: 1, named: /snapshot$/ });
    await expect(begins()).rejects.toThrow(/EIO/);
    disk.heal();
    expect(names()).toEqual([]);
    await begins();
    expect(names()).toHaveLength(1);
  });
});

describe('a second folder', () => {
  it('takes each snapshot too, verified there; and the list says where each lies', async () => {
    const { keeper, folder, names } = await kept(3);
    const second = freshFolder();
    await keeper.setSecond(second);
    const made = await keeper.make('asked');
    expect(readFileSync(join(second, made?.name ?? ''))).toEqual(readFileSync(join(folder, made?.name ?? '')));
    expect((await keeper.list()).second).toEqual({ folder: second, fault: null });
    expect(made?.places).toEqual(['here', 'second']);
    // Lost here, it is read from there.
    for (const name of names()) rmSync(join(folder, name));
    expect((await keeper.read({ name: made?.name ?? '', from: 0 })).head.seq).toBe(3);
    expect((await keeper.list()).snapshots).toMatchObject([{ places: ['second'] }]);
  });

  it('that is gone is said, and keeps none from being made here', async () => {
    const { keeper, disk, names } = await kept(3);
    const second = freshFolder();
    await keeper.setSecond(second);
    disk.fail({ call: 'open', code: 'EROFS', nth: 2, times: 1, named: /\.part$/ });
    expect(await keeper.make('asked')).toMatchObject({ places: ['here'] });
    expect((await keeper.list()).second).toEqual({ folder: second, fault: 'the disk may only be read (EROFS)' });
    expect(names()).toHaveLength(1);
  });

  it('is not taken where it takes no file, or is the first one', async () => {
    const { keeper, disk, folder } = await kept(1);
    expect((await refusalOf(keeper.setSecond(folder))).code).toBe('contradiction');
    disk.fail({ call: 'open', code: 'EACCES', nth: 1, times: 1 });
    expect(await refusalOf(keeper.setSecond(freshFolder()))).toMatchObject({
      code: 'disk',
      message: expect.stringMatching(/EACCES/) as string,
    });
    disk.heal();
    expect((await keeper.list()).second).toBeNull();
    await keeper.setSecond(freshFolder());
    await keeper.setSecond(null);
    expect((await keeper.list()).second).toBeNull();
  });
});
