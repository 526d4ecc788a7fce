/** What is noted beside the snapshots: a second folder, and that nothing is cleared away for the time being. Each is written whole. */
import { isAbsolute, join, resolve } from 'node:path';
import type { SnapshotList } from '../../../shared-types/snapshot.ts';
import { z } from '../../../shared-types/schema.ts';
import { codeOf, realDisk, writeAll, type Disk } from '../../files/disk.ts';
import { writeWhole } from '../../files/writeWhole.ts';
import { HostRefusal } from '../../site/refusal.ts';

type Shrunk = SnapshotList['shrunk'];

const shrunkSchema = z.strictObject({ from: z.number(), to: z.number(), tables: z.array(z.string()) });

async function readNote(path: string, disk: Disk): Promise<unknown> {
  try {
    return JSON.parse((await disk.readFile(path)).toString('utf8')) as unknown;
  } catch {
    return null;
  }
}

const written = (note: unknown): Buffer => Buffer.from(`${JSON.stringify(note)}\n`);

export interface HeldFile {
  get(): Promise<Shrunk>;
  set(shrunk: Shrunk): Promise<void>;
}

export function heldFile(folder: string, disk: Disk): HeldFile {
  const path = join(folder, 'held.json');
  return {
    async get() {
      const read = shrunkSchema.safeParse(await readNote(path, disk));
      return read.success ? read.data : null;
    },
    async set(shrunk) {
      if (shrunk === null) await disk.rm(path, { force: true });
      else await writeWhole(path, written(shrunk), 0o600, disk);
    },
  };
}

export interface SecondFile {
  get(): Promise<string | null>;
  /** @throws HostRefusal where the folder does not take a file; what was chosen before stays */
  set(folder: string | null): Promise<void>;
  /** What the last copy came to: null where it lies there. */
  note(fault: string | null): Promise<void>;
  fault(): string | null;
}

export function secondFile(folder: string, disk: Disk): SecondFile {
  const path = join(folder, 'second.json');
  let fault: string | null = null;
  return {
    async get() {
      const read = z.strictObject({ folder: z.string() }).safeParse(await readNote(path, disk));
      return read.success && isAbsolute(read.data.folder) ? read.data.folder : null;
    },
    async set(to) {
      await disk.mkdir(folder, { recursive: true, mode: 0o700 });
      if (to === null) {
        await disk.rm(path, { force: true });
        return;
      }
      const chosen = resolve(to);
      if (chosen === resolve(folder))
        throw new HostRefusal({
          code: 'contradiction',
          message: `${chosen} holds the snapshots already.`,
          value: chosen,
        });
      await tryIt(chosen, disk);
      await writeWhole(path, written({ folder: chosen }), 0o600, disk);
      fault = null;
    },
    async note(found) {
      fault = found;
    },
    fault: () => fault,
  };
}

async function tryIt(folder: string, disk: Disk): Promise<void> {
  const path = join(folder, `.bagwright-${process.pid}.part`);
  try {
    await disk.mkdir(folder, { recursive: true, mode: 0o700 });
    const file = await disk.open(path, 'wx', 0o600);
    try {
      await writeAll(file, Buffer.from('try'));
      await file.sync();
    } finally {
      await file.close();
    }
    await disk.rm(path, { force: true });
  } catch (cause) {
    throw new HostRefusal({
      code: 'disk',
      message: `${folder} does not take a file: ${codeOf(cause)}.`,
      value: folder,
    });
  }
}

/** For a start that says where: what was chosen before stays where the folder does not take a file. */
export function noteSecondFolder(snapshots: string, folder: string | null): Promise<void> {
  return secondFile(snapshots, realDisk).set(folder);
}
