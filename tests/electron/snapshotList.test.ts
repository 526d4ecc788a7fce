/** What the list says of each snapshot: where it lies whole, and where it cannot be gone by, with why. */
import { randomUUID } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { expect, it, vi } from 'vitest';
import { realDisk } from '../../electron/files/disk.ts';
import { snapshotKeeper } from '../../electron/journal/snapshots/keeper.ts';
import { noteSecondFolder } from '../../electron/journal/snapshots/notes.ts';
import { comes, refusalOf } from './support/journalUnderTest.ts';
import { scratchFolder } from './support/site.ts';
import { kept } from './support/keptSnapshots.ts';

const notItsSum = 'its content is not what its sum says';
const notWhole = 'it is not whole: its last line is not the sum of it';

function turnBit(path: string): void {
  const bytes = readFileSync(path);
  const at = bytes.indexOf('Store');
  bytes[at] = (bytes[at] ?? 0) ^ 0x01;
  writeFileSync(path, bytes);
}

it('tells which are damaged, in which folder and why, and where each is whole', async () => {
  const { keeper, folder, add } = await kept(3);
  const second = scratchFolder();
  await keeper.setSecond(second);
  const names: string[] = [];
  for (let round = 0; round < 4; round += 1) {
    await add(comes(`s${10 + round}`));
    names.push((await keeper.make('asked'))?.name ?? '');
  }
  const [first = '', other = '', third = '', whole = ''] = names;
  turnBit(join(folder, first));
  truncateSync(join(second, other), 100);
  turnBit(join(folder, third));
  rmSync(join(second, third));
  const { snapshots } = await keeper.list();
  expect(snapshots.map(({ name, places, damaged }) => ({ name, places, damaged }))).toEqual([
    { name: whole, places: ['here', 'second'], damaged: [] },
    { name: third, places: [], damaged: [{ place: 'here', reason: notItsSum }] },
    { name: other, places: ['here'], damaged: [{ place: 'second', reason: notWhole }] },
    { name: first, places: ['second'], damaged: [{ place: 'here', reason: notItsSum }] },
  ]);
  // What is whole in one of them is given from there.
  expect((await keeper.read({ name: first, from: 0 })).head.counts).toMatchObject({ shelves: 4 });
});

it('tells those that have another’s name, and goes by none of them', async () => {
  const { keeper, folder, add, names } = await kept(3);
  await keeper.make('asked');
  await add(comes('s10'));
  await keeper.make('before-restore');
  const [one = '', two = ''] = names();
  renameSync(join(folder, one), join(folder, 'aside'));
  renameSync(join(folder, two), join(folder, one));
  renameSync(join(folder, 'aside'), join(folder, two));
  const { snapshots } = await keeper.list();
  expect(snapshots.map(({ places, damaged }) => [places, damaged.map(({ reason }) => reason)])).toEqual([
    [[], [expect.stringMatching(/^it holds what was kept at 2\d{3}-.* up to entry 3, and its name says otherwise$/)]],
    [[], [expect.stringMatching(/up to entry 4, and its name says otherwise$/)]],
  ]);
  expect((await refusalOf(keeper.read({ name: one, from: 0 }))).message).toMatch(/its name says otherwise/);
  // The next is made from every line, and is whole.
  await add(comes('s11'));
  const made = await keeper.make('asked');
  expect((await keeper.read({ name: made?.name ?? '', from: 0 })).head.counts).toMatchObject({ shelves: 5 });
});

it('copies into no folder that only has the name of the second one, and says so', async () => {
  const { keeper, folder, add } = await kept(3);
  const second = scratchFolder();
  await keeper.setSecond(second);
  expect((await keeper.make('asked'))?.places).toEqual(['here', 'second']);
  const missing = 'it is not there, or not the one that was chosen: put it back, or choose it again';
  // A stick that is out, and an empty folder where it was.
  renameSync(second, `${second}-out`);
  for (const makeFolder of [() => undefined, () => mkdirSync(second)]) {
    makeFolder();
    await add(comes(`s${randomUUID()}`));
    expect(await keeper.make('asked')).toMatchObject({ places: ['here'] });
    expect((await keeper.list()).second).toEqual({ folder: second, fault: missing });
    // A start that says the same again does not make it anew.
    await noteSecondFolder(folder, second);
    expect(existsSync(second) ? readdirSync(second) : []).toEqual([]);
  }
  rmSync(second, { recursive: true });
  renameSync(`${second}-out`, second);
  await add(comes('s12'));
  expect(await keeper.make('asked')).toMatchObject({ places: ['here', 'second'] });
  expect((await keeper.list()).second).toEqual({ folder: second, fault: null });
  // Chosen again, an empty one is taken.
  rmSync(second, { recursive: true });
  await keeper.setSecond(second);
  expect((await keeper.make('asked'))?.places).toEqual(['here', 'second']);
});

it('reads each file once, and again where it has changed', async () => {
  const { journal, keeper, folder, names } = await kept(3);
  await keeper.make('asked');
  await keeper.make('asked');
  const disk = { ...realDisk, readFile: vi.fn(realDisk.readFile) };
  const looking = snapshotKeeper({ folder, journal: () => journal.standing(), disk });
  const read = (): string[] =>
    disk.readFile.mock.calls.map(([path]) => path).filter((path) => path.endsWith('.snapshot'));
  await looking.list();
  await looking.list();
  const [one = '', two = ''] = names().map((name) => join(folder, name));
  expect(read().toSorted()).toEqual([one, two]);
  truncateSync(two, 100);
  const { snapshots } = await looking.list();
  expect(read()).toHaveLength(3);
  expect(snapshots.flatMap(({ damaged }) => damaged)).toEqual([{ place: 'here', reason: notWhole }]);
});

it('says of a file that cannot be read that it cannot be, and shows the rest', async () => {
  const { journal, keeper, folder, names } = await kept(3);
  await keeper.make('asked');
  await keeper.make('asked');
  const [one = ''] = names();
  const disk = {
    ...realDisk,
    readFile: (path: string) =>
      path.endsWith(one) ? Promise.reject(Object.assign(new Error('no'), { code: 'EIO' })) : realDisk.readFile(path),
  };
  const { snapshots } = await snapshotKeeper({ folder, journal: () => journal.standing(), disk }).list();
  expect(snapshots).toHaveLength(2);
  expect(snapshots.find(({ name }) => name === one)).toMatchObject({
    places: [],
    damaged: [{ place: 'here', reason: 'it cannot be read: the disk reports an error (EIO)' }],
  });
});

it('says in plain words what the disk refuses, and puts nothing else down to it', async () => {
  const { keeper, disk, journal, folder } = await kept(3);
  disk.fail({ call: 'open', code: 'ENOSPC', nth: 1, times: 1, named: /part$/ });
  expect((await refusalOf(keeper.make('asked'))).message).toBe('No snapshot was made: the disk is full (ENOSPC)');
  const gone = snapshotKeeper({
    folder,
    journal: () => journal.standing(),
    disk: { ...realDisk, readdir: () => Promise.reject(Object.assign(new Error('no'), { code: 'EIO' })) },
  });
  expect((await refusalOf(gone.list())).message).toBe(
    'The snapshots cannot be listed: the disk reports an error (EIO)',
  );
  const broken = snapshotKeeper({ folder, journal: () => Promise.reject(new TypeError('a fault of the program')) });
  await expect(broken.make('asked')).rejects.toThrow(TypeError);
});
