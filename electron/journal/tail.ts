/** A last line that was never finished is nobody's acknowledged work, and still nothing is thrown away. */
import { join } from 'node:path';
import { syncFolder, writeAll, type Disk } from '../files/disk.ts';
import type { Clock } from './clock.ts';
import type { Verified } from './verify.ts';

/** Copies the bytes into a file of their own, on the disk, before they leave the segment. */
export async function moveTailAside(
  folder: string,
  { torn, lastBytes }: Verified,
  disk: Disk,
  clock: Clock,
): Promise<{ bytes: number; file: string } | null> {
  if (torn === null) return null;
  const file = await freeName(folder, `tail-${clock().utc.replaceAll(':', '-')}`, disk);
  const aside = await disk.open(join(folder, file), 'wx', 0o600);
  try {
    await writeAll(aside, torn.bytes);
    await aside.sync();
  } finally {
    await aside.close();
  }
  await syncFolder(folder, disk);
  const segment = await disk.open(join(folder, torn.segment.name), 'r+');
  try {
    await segment.truncate(lastBytes);
    await segment.sync();
  } finally {
    await segment.close();
  }
  return { bytes: torn.bytes.length, file };
}

/** The clock may stand still or go back; no file is written over. */
async function freeName(folder: string, wanted: string, disk: Disk): Promise<string> {
  const taken = new Set(await disk.readdir(folder));
  for (let count = 1; ; count += 1) {
    const name = count === 1 ? `${wanted}.bin` : `${wanted}-${count}.bin`;
    if (!taken.has(name)) return name;
  }
}
