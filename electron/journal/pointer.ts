/** Small facts beside the entries: whose journal it is, and which database belongs to it. Each is written whole. */
import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import type { Disk } from '../files/disk.ts';
import { writeWhole } from '../files/writeWhole.ts';

const deviceFile = 'device';
const storeFile = 'store.json';
const firstDatabase = 'bagwright-1';

/** A number of this copy's own, so that two journals can be told apart. It says nothing of the machine. */
export async function deviceId(folder: string, disk: Disk): Promise<string> {
  const kept = (await readIfThere(join(folder, deviceFile), disk)).trim();
  if (/^[0-9a-f]{32}$/.test(kept)) return kept;
  const id = randomBytes(16).toString('hex');
  await writeWhole(join(folder, deviceFile), Buffer.from(`${id}\n`), 0o600, disk);
  return id;
}

export async function readDatabase(folder: string, disk: Disk): Promise<string> {
  const text = await readIfThere(join(folder, storeFile), disk);
  try {
    const kept: unknown = JSON.parse(text);
    const name = typeof kept === 'object' && kept !== null && 'database' in kept ? kept.database : null;
    // A name that is no name is no pointer: the database of that name is compared with the journal like any other.
    return typeof name === 'string' && name !== '' ? name : firstDatabase;
  } catch {
    return firstDatabase;
  }
}

export async function writeDatabase(folder: string, name: string, disk: Disk): Promise<void> {
  await writeWhole(join(folder, storeFile), Buffer.from(`${JSON.stringify({ database: name })}\n`), 0o600, disk);
}

async function readIfThere(path: string, disk: Disk): Promise<string> {
  try {
    return (await disk.readFile(path)).toString('utf8');
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code === 'ENOENT') return '';
    throw cause;
  }
}
