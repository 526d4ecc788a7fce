/** The calls by which kept work reaches the disk, in one place, so that a test can let any of them fail. */
import { chmod, mkdir, open, readdir, readFile, rename, rm } from 'node:fs/promises';

export interface DiskFile {
  write(bytes: Uint8Array): Promise<{ bytesWritten: number }>;
  truncate(length: number): Promise<void>;
  chmod(mode: number): Promise<void>;
  /** `nlink`: under how many names it can be found; 0 once it has been deleted. */
  stat(): Promise<{ size: number; nlink: number; mtimeMs: number }>;
  /** All of the file is on the disk, its times too. */
  sync(): Promise<void>;
  /** The bytes and the length are on the disk. */
  datasync(): Promise<void>;
  close(): Promise<void>;
}

export interface Disk {
  open(path: string, flags: 'a' | 'r' | 'r+' | 'wx', mode?: number): Promise<DiskFile>;
  readFile(path: string): Promise<Buffer>;
  readdir(path: string): Promise<string[]>;
  mkdir(path: string, options: { recursive?: boolean; mode: number }): Promise<unknown>;
  chmod(path: string, mode: number): Promise<void>;
  rename(from: string, to: string): Promise<void>;
  rm(path: string, options: { force: boolean; recursive?: boolean }): Promise<void>;
}

export const realDisk: Disk = { open, readFile, readdir, mkdir, chmod, rename, rm };

/** The system may take a part of the bytes; the rest is offered again until all are taken, or it says why not. */
export async function writeAll(file: DiskFile, bytes: Uint8Array): Promise<void> {
  for (let done = 0; done < bytes.length;) {
    const { bytesWritten } = await file.write(bytes.subarray(done));
    if (bytesWritten === 0) throw new Error('the disk took no more bytes');
    done += bytesWritten;
  }
}

/** A new name is on the disk once its folder is. Windows has no such call, and keeps names by itself. */
export async function syncFolder(folder: string, disk: Disk = realDisk): Promise<void> {
  if (process.platform === 'win32') return;
  const handle = await disk.open(folder, 'r');
  try {
    await handle.sync();
  } catch (cause) {
    // Some network folders do not know the call; the file itself has been synced.
    if (!['EINVAL', 'ENOTSUP'].includes((cause as NodeJS.ErrnoException).code ?? '')) throw cause;
  } finally {
    await handle.close();
  }
}

export async function statOf(path: string, disk: Disk): Promise<{ size: number; mtimeMs: number }> {
  const file = await disk.open(path, 'r');
  try {
    return await file.stat();
  } finally {
    await file.close();
  }
}

/** The system's word for what went wrong, as `ENOSPC`. */
export function codeOf(cause: unknown): string {
  const { code, message } = cause as NodeJS.ErrnoException;
  return code ?? message;
}
