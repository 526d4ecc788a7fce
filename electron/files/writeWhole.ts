/** Writes a file so that at every moment either the old one or the new one is there, whole. */
import { randomBytes } from 'node:crypto';
import { dirname, join } from 'node:path';
import { realDisk, syncFolder, writeAll, type Disk } from './disk.ts';

export async function writeWhole(path: string, bytes: Uint8Array, mode: number, disk: Disk = realDisk): Promise<void> {
  const beside = join(dirname(path), `.${randomBytes(8).toString('hex')}.part`);
  try {
    const file = await disk.open(beside, 'wx', mode);
    try {
      await writeAll(file, bytes);
      // The process keeps its own files private; this one has the mode the caller means.
      await file.chmod(mode);
      await file.sync();
    } finally {
      await file.close();
    }
    await disk.rename(beside, path);
  } catch (cause) {
    await disk.rm(beside, { force: true }).catch(() => undefined);
    throw cause;
  }
  await syncFolder(dirname(path), disk);
}
