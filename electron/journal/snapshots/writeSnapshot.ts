/** Puts a snapshot on the disk: under another name first, read back and verified, and only then under its own. */
import { randomBytes } from 'node:crypto';
import { setTimeout as pause } from 'node:timers/promises';
import { join } from 'node:path';
import { nameOfSnapshot } from '../../../shared-types/snapshot.ts';
import { codeOf, syncFolder, writeAll, type Disk } from '../../files/disk.ts';
import { bytesOf, readSnapshot, type Content } from './format.ts';

/** Programs that look at every new file hold it for moments. */
const heldCodes = new Set(['EPERM', 'EACCES', 'EBUSY']);
const renameLimitMs = 5_000;

/** @returns its name. Thrown: what was there before is there still, and nothing else has its name. */
export async function writeSnapshot(folder: string, content: Content, disk: Disk): Promise<string> {
  await disk.mkdir(folder, { recursive: true, mode: 0o700 });
  return await putBeside(
    folder,
    () => bytesOf(content),
    (taken) => freeName(taken, content),
    disk,
  );
}

/** The same bytes in another folder, verified there anew. */
export async function copySnapshot(bytes: Buffer, folder: string, name: string, disk: Disk): Promise<void> {
  await disk.mkdir(folder, { recursive: true, mode: 0o700 });
  await putBeside(
    folder,
    () => [bytes],
    () => name,
    disk,
  );
}

async function putBeside(
  folder: string,
  pieces: () => Iterable<Buffer>,
  nameFor: (taken: ReadonlySet<string>) => string,
  disk: Disk,
): Promise<string> {
  const beside = join(folder, `.${randomBytes(8).toString('hex')}.part`);
  try {
    const file = await disk.open(beside, 'wx', 0o600);
    try {
      for (const piece of pieces()) await writeAll(file, piece);
      await file.sync();
    } finally {
      await file.close();
    }
    const read = readSnapshot(await disk.readFile(beside));
    if ('reason' in read) throw new Error(`the snapshot was not written whole: ${read.reason}`);
    // Nothing is ever written over: a name that is taken is not taken again.
    const name = nameFor(new Set(await disk.readdir(folder)));
    await renamed(beside, join(folder, name), disk);
    await syncFolder(folder, disk);
    return name;
  } catch (cause) {
    await disk.rm(beside, { force: true }).catch(() => undefined);
    throw cause;
  }
}

async function renamed(from: string, to: string, disk: Disk): Promise<void> {
  const until = performance.now() + renameLimitMs;
  for (let waitMs = 20; ; waitMs = Math.min(2 * waitMs, 500)) {
    try {
      await disk.rename(from, to);
      return;
    } catch (cause) {
      if (!heldCodes.has(codeOf(cause)) || performance.now() > until) throw cause;
      await pause(waitMs);
    }
  }
}

function freeName(taken: ReadonlySet<string>, { utc, seq, why }: Content): string {
  for (let again = 0; ; again += 1) {
    const name = nameOfSnapshot({ utc, seq, why, again });
    if (!taken.has(name)) return name;
  }
}
