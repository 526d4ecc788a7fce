/** What is noted beside the snapshots: a second folder, and that nothing is cleared away for the time being. Each is written whole. */
import { isAbsolute, join, resolve } from 'node:path';
import { readSnapshotName, type SnapshotList } from '../../../shared-types/snapshot.ts';
import { z } from '../../../shared-types/schema.ts';
import { realDisk, writeAll, type Disk } from '../../files/disk.ts';
import { wordsOfDisk } from '../diskRefusal.ts';
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

/** Snapshots that go further than the journal: `found` when it was opened, or so by a person's will. */
interface Further {
  found: readonly string[];
  meant: readonly string[];
}

/** What was noted of a journal says nothing of another one, nor of one that has not come as far. */
type OfJournal = Readonly<{ deviceId: string; seq: number }>;

export interface FurtherFile {
  /** Null: of whichever journal it was. */
  get(of: OfJournal | null): Promise<Further>;
  set(of: OfJournal, further: Further): Promise<void>;
}

const furtherSchema = z.strictObject({
  deviceId: z.string(),
  seq: z.number(),
  found: z.array(z.string()),
  meant: z.array(z.string()),
});

export function furtherFile(folder: string, disk: Disk): FurtherFile {
  const path = join(folder, 'further.json');
  return {
    async get(of) {
      const { data } = furtherSchema.safeParse(await readNote(path, disk));
      const isOfIt = data !== undefined && (of === null || (data.deviceId === of.deviceId && data.seq <= of.seq));
      return isOfIt ? data : { found: [], meant: [] };
    },
    set: ({ deviceId, seq }, further) => writeWhole(path, written({ deviceId, seq, ...further }), 0o600, disk),
  };
}

export interface SecondFile {
  get(): Promise<string | null>;
  /** @throws HostRefusal where the folder does not take a file; what was chosen before stays */
  set(folder: string | null): Promise<void>;
  /** The names of what was copied there: others may keep theirs in the same folder. */
  copied(): Promise<string[]>;
  noteCopied(names: readonly string[]): Promise<void>;
  /** What the last copy came to: null where it lies there. */
  note(fault: string | null): Promise<void>;
  fault(): string | null;
  /** Whether it is the one that was chosen: where a stick is out, a folder of its name may lie on this disk. */
  isThere(folder: string): Promise<boolean>;
}

/** Left in a second folder when it is chosen; by it the folder is known again. */
const markName = 'bagwright-snapshots.txt';
const mark = 'Bagwright copies its snapshots here, as long as it finds this file.\n';

const secondSchema = z.strictObject({ folder: z.string(), copied: z.array(z.string()).default([]) });

export function secondFile(folder: string, disk: Disk): SecondFile {
  const path = join(folder, 'second.json');
  let fault: string | null = null;
  const read = async (): Promise<z.infer<typeof secondSchema> | null> => {
    const { data } = secondSchema.safeParse(await readNote(path, disk));
    return data !== undefined && isAbsolute(data.folder) ? data : null;
  };
  return {
    get: async () => (await read())?.folder ?? null,
    copied: async () => (await read())?.copied ?? [],
    async noteCopied(copied) {
      const noted = await read();
      if (noted !== null) await writeWhole(path, written({ ...noted, copied }), 0o600, disk);
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
      await writeWhole(join(chosen, markName), Buffer.from(mark), 0o600, disk);
      const before = await read();
      const copied = before?.folder === chosen ? before.copied : [];
      await writeWhole(path, written({ folder: chosen, copied }), 0o600, disk);
      fault = null;
    },
    async note(found) {
      fault = found;
    },
    fault: () => fault,
    async isThere(of) {
      const names = await disk.readdir(of).catch(() => []);
      // Those of before it was marked hold snapshots.
      return names.some((name) => name === markName || readSnapshotName(name) !== null);
    },
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
      message: `${folder} does not take a file: ${wordsOfDisk(cause)}.`,
      value: folder,
    });
  }
}

/** For a start that says where: what was chosen before stays where the folder does not take a file. Said again, it is not made again. */
export async function noteSecondFolder(snapshots: string, folder: string | null): Promise<void> {
  const second = secondFile(snapshots, realDisk);
  if (folder !== null && (await second.get()) === resolve(folder)) return;
  await second.set(folder);
}
