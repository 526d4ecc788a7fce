/** Puts a snapshot on the disk: under another name first, read back and verified, and only then under its own. */
import { randomBytes } from 'node:crypto';
import { setTimeout as pause } from 'node:timers/promises';
import { join } from 'node:path';
import { nameOfSnapshot } from '../../../shared-types/snapshot.ts';
import { codeOf, syncFolder, writeAll, type Disk } from '../../files/disk.ts';
import { bytesOf, faultOfSum, sumOf, type FileBytes, type Frame, type Lines } from './format.ts';

/** Programs that look at every new file hold it for moments. */
const heldCodes = new Set(['EPERM', 'EACCES', 'EBUSY']);
const renameLimitMs = 5_000;

/** @returns its name. Thrown: what was there before is there still, and nothing else has its name. */
export async function writeSnapshot(folder: string, frame: Frame, lines: Lines, disk: Disk): Promise<string> {
  await disk.mkdir(folder, { recursive: true, mode: 0o700 });
  return await putBeside(folder, bytesOf(frame, lines), (taken) => freeName(taken, frame), disk);
}

/** The same bytes in another folder, which is there; verified there anew. */
export async function copySnapshot(bytes: Buffer, folder: string, name: string, disk: Disk): Promise<void> {
  if (faultOfSum(bytes) !== null) throw new Error(`${name} is not whole any more`);
  await putBeside(folder, { pieces: [bytes], sum: sumOf([bytes]) }, () => name, disk);
}

async function putBeside(
  folder: string,
  { pieces, sum }: FileBytes,
  nameFor: (taken: ReadonlySet<string>) => string,
  disk: Disk,
): Promise<string> {
  const beside = join(folder, `.${randomBytes(8).toString('hex')}.part`);
  try {
    const file = await disk.open(beside, 'wx', 0o600);
    try {
      for (const piece of pieces) await writeAll(file, piece);
      await file.sync();
    } finally {
      await file.close();
    }
    if (sumOf([await disk.readFile(beside)]) !== sum)
      throw new Error('the snapshot was not written whole: what was read back is not what was written');
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

function freeName(taken: ReadonlySet<string>, { utc, seq, why }: Frame): string {
  for (let again = 0; ; again += 1) {
    const name = nameOfSnapshot({ utc, seq, why, again });
    if (!taken.has(name)) return name;
  }
}
