/** Writes a file so that at every moment either the old one or the new one is there, whole. */
import { randomBytes } from 'node:crypto';
import { open, rename, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';

export async function writeWhole(path: string, bytes: Uint8Array, mode: number): Promise<void> {
  const beside = join(dirname(path), `.${randomBytes(8).toString('hex')}.part`);
  try {
    const file = await open(beside, 'wx', mode);
    try {
      await file.writeFile(bytes);
      // The process keeps its own files private; this one has the mode the caller means.
      await file.chmod(mode);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(beside, path);
  } catch (cause) {
    await rm(beside, { force: true }).catch(() => undefined);
    throw cause;
  }
  await syncFolder(dirname(path));
}

/** The new name is on the disk once its folder is. Windows has no such call, and keeps names by itself. */
async function syncFolder(folder: string): Promise<void> {
  if (process.platform === 'win32') return;
  const handle = await open(folder, 'r');
  try {
    await handle.sync();
  } catch (cause) {
    // Some network folders do not know the call; the file itself has been synced.
    if (!['EINVAL', 'ENOTSUP'].includes((cause as NodeJS.ErrnoException).code ?? '')) throw cause;
  } finally {
    await handle.close();
  }
}
