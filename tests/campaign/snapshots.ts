/** F3 and F8: snapshots whose writing is broken off, and snapshots that are not what they were. */
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { bytesOf, linesOf, readSnapshot } from '../../electron/journal/snapshots/format.ts';
import { snapshotKeeper, type SnapshotKeeper } from '../../electron/journal/snapshots/keeper.ts';
import { recordsVersion } from '../../shared-types/records/index.ts';
import { nameOfSnapshot } from '../../shared-types/snapshot.ts';
import { faultyDisk, type DiskCall, type FaultyDisk } from '../electron/support/faultyDisk.ts';
import { comes, segmentPaths, steadyClock } from '../electron/support/journalParts.ts';
import { must, mustEqual, type Part } from './part.ts';
import { plainScript } from './support/plainScript.ts';
import { scratch } from './support/scratch.ts';
import { refusalIn, shelfJournal, type ShelfJournal } from './support/shelves.ts';

/** The steps of writing one, by the calls that do them; `folder` is the sync that makes its name last. */
const steps = ['open', 'write', 'sync', 'close', 'readFile', 'rename', 'folder'] as const;
export type SnapshotStep = (typeof steps)[number];

interface Kept {
  journal: ShelfJournal;
  keeper: SnapshotKeeper;
  disk: FaultyDisk;
  folder: string;
  names: () => string[];
  add: () => Promise<void>;
}

async function kept(within: string, count: number): Promise<Kept> {
  const journal = shelfJournal(within);
  await journal.open();
  for (let seq = 1; seq <= count; seq += 1) await journal.add(seq);
  const disk = faultyDisk({ realSyncs: false });
  const folder = join(within, 'snapshots');
  const keeper = snapshotKeeper({ folder, journal: () => journal.standing(), disk, clock: steadyClock() });
  let seq = count;
  return {
    journal,
    keeper,
    disk,
    folder,
    names: () => readdirSync(folder).filter((name) => name.endsWith('.snapshot')),
    async add() {
      seq += 1;
      await journal.add(seq, [comes(`s${seq}`)]);
    },
  };
}

function mustBeWhole(folder: string, name: string): void {
  const read = readSnapshot(readFileSync(join(folder, name)));
  must(!('reason' in read), 'lost', `${name} is not whole: ${'reason' in read ? read.reason : ''}`);
}

export const snapshotThrows: Part = {
  of: 'F3',
  fault: 'a step of writing a snapshot fails',
  trials: 140,
  async open() {
    const own = scratch();
    const { journal, keeper, disk, folder, names, add } = await kept(own.folder(), 3);
    await keeper.make('asked');
    let [before = ''] = names();
    return {
      async trial(n, chance) {
        const step = steps[n % steps.length] ?? 'open';
        await add();
        disk.fail(faultAt(step, chance.pick(['EIO', 'ENOSPC', 'EROFS'])));
        const failed = await keeper.make('asked').then(
          () => false,
          () => true,
        );
        disk.heal();
        must(failed, 'undetected', `${step} failed, and the snapshot was called made`);
        mustBeWhole(folder, before);
        const halves = readdirSync(folder).filter((name) => name.endsWith('.part'));
        mustEqual(halves, [], 'partial', `left after ${step} failed`);
        // Only where all but its folder was on the disk may the new one be there, and then it is whole.
        for (const name of names()) mustBeWhole(folder, name);
        if (step === 'folder') before = names().toSorted().at(-1) ?? before;
        else mustEqual(names().toSorted().at(-1), before, 'partial', `the newest after ${step} failed`);
      },
      close() {
        journal.close();
        own.clear();
      },
    };
  },
};

function faultAt(step: SnapshotStep, code: string): Parameters<FaultyDisk['fail']>[0] {
  const call: DiskCall = step === 'folder' ? 'sync' : step;
  const named = step === 'rename' ? /snapshot$/ : step === 'folder' ? /^.*snapshots$/ : /\.part$/;
  return { call, code, nth: 1, times: 1, named };
}

/** A process of its own each time: what a kill leaves is what the disk has. */
export const snapshotKills: Part = {
  of: 'F3',
  fault: 'kill -9 at a step of writing a snapshot',
  trials: 140,
  async open() {
    const own = scratch();
    const script = await plainScript('tests/campaign/support/snapshotWriter.ts', own.folder());
    return {
      async trial(n, chance) {
        const within = own.folder();
        const maker = await kept(within, chance.whole(1, 6));
        await maker.keeper.make('asked');
        const [before = ''] = maker.names();
        await maker.add();
        maker.journal.close();
        const lines = segmentPaths(maker.journal.folder).map((path) => readFileSync(path, 'utf8'));
        const step = steps[n % steps.length] ?? 'open';
        const killed = await endOf([script, within, step]);
        mustEqual(killed, 'SIGKILL', 'broken', `the process that was to be killed at ${step}`);
        mustBeWhole(maker.folder, before);
        for (const name of maker.names()) mustBeWhole(maker.folder, name);
        // The next start makes one, whatever was left beside it.
        const next = shelfJournal(within);
        const { seq } = await next.open();
        const keeper = snapshotKeeper({ folder: maker.folder, journal: () => next.standing() });
        const made = await keeper.make('asked');
        next.close();
        must(made !== null && made.seq === seq, 'broken', `the snapshot after a kill at ${step}`);
        mustBeWhole(maker.folder, made.name);
        const now = segmentPaths(maker.journal.folder).map((path) => readFileSync(path, 'utf8'));
        mustEqual(now, lines, 'lost', 'the journal beside it');
      },
      close: () => own.clear(),
    };
  },
};

function endOf(args: string[]): Promise<string> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, args, { stdio: ['ignore', 'ignore', 'inherit'] });
    child.on('exit', (code, signal) => resolve(signal ?? `ended with ${code}`));
  });
}

/** Damage to a backup: bits turned, cut off, and files that are something else. */
export const corruptSnapshots: Part = {
  of: 'F8',
  fault: 'a snapshot with a bit turned, cut off, or something else under its name',
  trials: 340,
  async open() {
    const own = scratch();
    const { journal, keeper, folder, names } = await kept(own.folder(), 8);
    await keeper.make('asked');
    const [name = ''] = names();
    const sound = readFileSync(join(folder, name));
    const lines = segmentPaths(journal.folder).map((path) => readFileSync(path, 'utf8'));
    const standing = await journal.standing();
    const others = oddFiles();
    return {
      async trial(n, chance) {
        const [what, bytes, under] = corrupt(n, sound, name, others, chance);
        writeFileSync(join(folder, under), bytes);
        const refusal = await refusalIn(keeper.read({ name: under, from: 0 }));
        must(refusal !== null, 'undetected', `${what} was read`);
        must(/cannot be gone by: ./.test(refusal.message), 'broken', `${what}: ${refusal.message}`);
        mustEqual(refusal.file, under, 'broken', `${what}: the file that is named`);
        mustEqual(await journal.standing(), standing, 'lost', `${what}: where the journal stands`);
        const now = segmentPaths(journal.folder).map((path) => readFileSync(path, 'utf8'));
        mustEqual(now, lines, 'lost', `${what}: the journal`);
      },
      close() {
        journal.close();
        own.clear();
      },
    };
  },
};

type Corrupted = [what: string, bytes: Buffer, under: string];

function corrupt(
  n: number,
  sound: Buffer,
  name: string,
  others: readonly Corrupted[],
  chance: Parameters<Awaited<ReturnType<Part['open']>>['trial']>[1],
): Corrupted {
  // Of seventeen: ten with a bit turned, five cut off, two of something else.
  const kind = n % 17;
  if (kind < 10) {
    const [at, bit] = [chance.whole(0, sound.length - 1), chance.whole(0, 7)];
    const damaged = Buffer.from(sound);
    damaged[at] = (damaged[at] ?? 0) ^ (1 << bit);
    return [`bit ${bit} of byte ${at} turned`, damaged, name];
  }
  if (kind < 15) {
    const length = chance.whole(0, sound.length - 1);
    return [`cut to ${length} of ${sound.length} bytes`, sound.subarray(0, length), name];
  }
  return chance.pick(others);
}

const shelf = { id: 's', rev: 1, name: 'S' };

function oddFiles(): Corrupted[] {
  const under = nameOfSnapshot({ utc: '2031-04-05T10:20:30Z', seq: 9, why: 'asked', again: 0 });
  const sound = snapshotOf([['s', shelf]]);
  const twice = snapshotOf([
    ['s', shelf],
    ['t', shelf],
  ]);
  const changed = (from: string, to: string): Buffer => resummed(sound, (text) => text.replace(from, to));
  const all: [string, Buffer][] = [
    ['an empty file', Buffer.alloc(0)],
    ['a plan', Buffer.from('{"catalog":{}}\n')],
    ['another program’s lines', Buffer.from('{"program":"other"}\n{"end":"0"}\n')],
    ['a picture', Buffer.from('\u0089PNG\r\n\u001a\n', 'latin1')],
    ['nothing but zeros', Buffer.alloc(4096)],
    ['a record without a name', snapshotOf([['s', { id: 's', rev: 1 }]])],
    ['a record twice', twice],
    ['a newer version', changed(`"records":${recordsVersion}`, '"records":99')],
    ['another kind of file', changed('"snapshot"', '"plan"')],
    ['a count that lies', changed('"shelves":1', '"shelves":2')],
    ['a table that is not known', changed('["shelves"', '["shelfs"')],
    ['a line lost, its sum made anew', resummed(sound, (text) => text.split('\n').slice(0, 1).join('\n') + '\n')],
  ];
  return all.map(([what, bytes]) => [what, bytes, under]);
}

function snapshotOf(shelves: [string, object][]): Buffer {
  const frame = { seq: 9, hash: 'a'.repeat(64), deviceId: 'b'.repeat(32), utc: '2031-04-05T10:20:30.000Z' };
  const tables = new Map([['shelves', new Map(shelves as [string, Record<string, unknown>][])]] as const);
  return Buffer.concat(bytesOf({ ...frame, why: 'asked' }, linesOf(tables)).pieces);
}

/** Another text with the right sum under it. */
export function resummed(sound: Buffer, change: (text: string) => string): Buffer {
  const text = change(sound.subarray(0, sound.lastIndexOf(0x0a, sound.length - 2) + 1).toString('utf8'));
  return Buffer.from(`${text}{"end":"${createHash('sha256').update(text).digest('hex')}"}\n`);
}
