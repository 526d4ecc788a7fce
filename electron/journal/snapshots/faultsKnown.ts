/** Which files are what their sum says. Each is read once, and again where its size or its time is another. */
import { setImmediate as breathe } from 'node:timers/promises';
import { basename } from 'node:path';
import { statOf, type Disk } from '../../files/disk.ts';
import { wordsOfDisk } from '../diskRefusal.ts';
import { faultOfName, faultOfSum } from './format.ts';

export interface FileLooked {
  bytes: number;
  /** Why it cannot be gone by, or null. */
  reason: string | null;
}

export interface FaultsKnown {
  of(path: string): Promise<FileLooked>;
}

export function faultsKnown(disk: Disk): FaultsKnown {
  const known = new Map<string, FileLooked & { mtimeMs: number }>();
  return {
    async of(path) {
      try {
        const { size, mtimeMs } = await statOf(path, disk);
        const before = known.get(path);
        if (before?.bytes === size && before.mtimeMs === mtimeMs) return before;
        const looked = { bytes: size, mtimeMs, reason: faultOfFile(basename(path), await disk.readFile(path)) };
        known.set(path, looked);
        // The process has a window to answer for between two of them.
        await breathe();
        return looked;
      } catch (cause) {
        return { bytes: 0, reason: `it cannot be read: ${wordsOfDisk(cause)}` };
      }
    },
  };
}

function faultOfFile(name: string, bytes: Buffer): string | null {
  return faultOfSum(bytes) ?? faultOfName(name, bytes)?.reason ?? null;
}
