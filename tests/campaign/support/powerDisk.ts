/**
 * A disk in memory that tells what is on it from what is only in the system's hands: bytes last once their file is synced, names
 * once their folder is. At a loss of power each sector that was not synced may be there, be lost, be zeros or be anything,
 * and each name that was not may be there or not, in whatever order.
 */
import { basename, dirname } from 'node:path';
import type { Disk, DiskFile } from '../../../electron/files/disk.ts';
import type { Dice } from '../../reference/dice.ts';

interface Inode {
  bytes: Buffer;
  /** As it is on the disk. */
  synced: Buffer;
  links: number;
}

interface Folder {
  names: Map<string, Inode>;
  synced: Map<string, Inode>;
}

/** How much of a file a disk writes at once. */
export type Grain = 512 | 4096;

export class PowerLost extends Error {
  override readonly name = 'PowerLost';
}

export interface PowerDisk extends Disk {
  /** Calls that change something, so far. */
  calls(): number;
  /** The power goes at that call, before it or in the middle of it. */
  goesAt(call: number): void;
  /** What a new start finds. */
  afterLoss(chance: Dice, grain: Grain): PowerDisk;
}

const error = (code: string, path: string): Error => Object.assign(new Error(`${code}: ${path}`), { code });

export function powerDisk(folders = new Map<string, Folder>()): PowerDisk {
  let count = 0;
  let last = Number.POSITIVE_INFINITY;

  const folderOf = (path: string): Folder => {
    const found = folders.get(path);
    if (found === undefined) throw error('ENOENT', path);
    return found;
  };
  /** True where the power goes now, in the middle of this call. */
  const step = (): boolean => {
    count += 1;
    if (count > last) throw new PowerLost('no power');
    return count === last;
  };
  const inodeAt = (path: string): Inode => {
    const inode = folderOf(dirname(path)).names.get(basename(path));
    if (inode === undefined) throw error('ENOENT', path);
    return inode;
  };

  const fileOf = (inode: Inode): DiskFile => ({
    async write(bytes) {
      const goes = step();
      inode.bytes = Buffer.concat([inode.bytes, bytes]);
      if (goes) throw new PowerLost('in a write');
      return { bytesWritten: bytes.length };
    },
    async truncate(length) {
      const goes = step();
      inode.bytes = Buffer.from(inode.bytes.subarray(0, length));
      if (goes) throw new PowerLost('in a cut');
    },
    async chmod() {},
    stat: async () => ({ size: inode.bytes.length, nlink: inode.links, mtimeMs: 0 }),
    sync: async () => syncFile(inode),
    datasync: async () => syncFile(inode),
    async close() {},
  });
  const syncFile = (inode: Inode): void => {
    // Half done is not done: whatever it had written by then is left to chance.
    if (step()) throw new PowerLost('in a sync');
    inode.synced = inode.bytes;
  };
  const folderFile = (folder: Folder): DiskFile => ({
    ...fileOf({ bytes: Buffer.alloc(0), synced: Buffer.alloc(0), links: 1 }),
    async sync() {
      if (step()) throw new PowerLost('in a sync of a folder');
      folder.synced = new Map(folder.names);
    },
  });

  return {
    calls: () => count,
    goesAt: (call) => void (last = call),
    async open(path, flags) {
      const asFolder = folders.get(path);
      if (asFolder !== undefined) return folderFile(asFolder);
      const folder = folderOf(dirname(path));
      const there = folder.names.get(basename(path));
      if (flags === 'r' || flags === 'r+') return fileOf(inodeAt(path));
      if (there !== undefined && flags === 'wx') throw error('EEXIST', path);
      if (there !== undefined) return fileOf(there);
      if (step()) throw new PowerLost('in a making');
      const made: Inode = { bytes: Buffer.alloc(0), synced: Buffer.alloc(0), links: 1 };
      folder.names.set(basename(path), made);
      return fileOf(made);
    },
    readFile: async (path) => Buffer.from(inodeAt(path).bytes),
    async readdir(path) {
      const inner = [...folders.keys()].filter((one) => dirname(one) === path && one !== path);
      return [...folderOf(path).names.keys(), ...inner.map((one) => basename(one))];
    },
    async mkdir(path) {
      // Folders last at once: what is tried here is what lies in them.
      if (!folders.has(path)) folders.set(path, { names: new Map(), synced: new Map() });
    },
    async chmod() {},
    async rename(from, to) {
      const goes = step();
      moved(folders, from, to);
      if (goes) throw new PowerLost('in a renaming');
    },
    async rm(path) {
      step();
      const inode = folders.get(dirname(path))?.names.get(basename(path));
      if (inode !== undefined) inode.links -= 1;
      folders.get(dirname(path))?.names.delete(basename(path));
    },
    afterLoss: (chance, grain) => powerDisk(leftOf(folders, chance, grain)),
  };
}

function moved(folders: Map<string, Folder>, from: string, to: string): void {
  const whole = folders.get(from);
  if (whole !== undefined) {
    folders.delete(from);
    folders.set(to, whole);
    return;
  }
  const source = folders.get(dirname(from));
  const inode = source?.names.get(basename(from));
  if (source === undefined || inode === undefined) throw error('ENOENT', from);
  source.names.delete(basename(from));
  folders.get(dirname(to))?.names.set(basename(to), inode);
}

function leftOf(folders: Map<string, Folder>, chance: Dice, grain: Grain): Map<string, Folder> {
  const left = new Map<string, Folder>();
  for (const [path, { names, synced }] of folders) {
    const there = new Map<string, Inode>();
    for (const name of new Set([...synced.keys(), ...names.keys()])) {
      const [before, after] = [synced.get(name), names.get(name)];
      const kept = before === after || chance.chance(0.5) ? after : before;
      if (kept === undefined) continue;
      const bytes = bytesLeft(kept, chance, grain);
      there.set(name, { bytes, synced: bytes, links: 1 });
    }
    left.set(path, { names: there, synced: new Map(there) });
  }
  return left;
}

/** The bytes that were synced; of the rest each sector as chance has it, and the length as it was told, or of an earlier moment. */
function bytesLeft({ bytes, synced }: Inode, chance: Dice, grain: Grain): Buffer {
  if (bytes === synced) return bytes;
  const length = chance.pick([
    bytes.length,
    synced.length,
    chance.whole(0, 1) * bytes.length || synced.length,
    between(),
  ]);
  function between(): number {
    const [low, high] = [Math.min(bytes.length, synced.length), Math.max(bytes.length, synced.length)];
    const cut = low + Math.floor(chance.roll() * (high - low + 1));
    return Math.min(high, Math.ceil(cut / grain) * grain);
  }
  const left = Buffer.alloc(length);
  synced.copy(left, 0, 0, Math.min(synced.length, length));
  for (let from = synced.length; from < length; from = (Math.floor(from / grain) + 1) * grain) {
    const to = Math.min(length, (Math.floor(from / grain) + 1) * grain);
    fillSector(left, { from, to }, bytes, chance);
  }
  return left;
}

function fillSector(left: Buffer, { from, to }: { from: number; to: number }, bytes: Buffer, chance: Dice): void {
  const kind = chance.whole(0, 3);
  // 0: never written, and zeros. 1: written. 2: garbled. 3: written up to somewhere within.
  if (kind === 1) bytes.copy(left, from, from, Math.min(to, bytes.length));
  else if (kind === 2) for (let at = from; at < to; at += 1) left[at] = chance.whole(0, 255);
  else if (kind === 3) bytes.copy(left, from, from, Math.min(chance.whole(from, to), bytes.length));
}
