import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import { realDisk } from '../files/disk.ts';
import { entriesFolder, segmentsIn } from '../journal/segments.ts';

/**
 * The folder that holds a journal's entries, of the data folder, of the journal's own folder, or of that folder itself. Null where the path
 * is no folder; empty where it is one and holds no journal.
 */
export async function journalFolder(path: string): Promise<string | null> {
  if (!(await isFolder(path))) return null;
  const inside = join(path, 'journal');
  if (await isFolder(inside)) return journalFolder(inside);
  const entries = await entriesFolder(path, realDisk);
  if (entries !== null) return join(path, entries.name);
  return (await segmentsIn(path, realDisk)).length > 0 ? path : '';
}

async function isFolder(path: string): Promise<boolean> {
  try {
    return (await stat(path)).isDirectory();
  } catch {
    // What is wrong with a path is said by whoever reads it as a file.
    return false;
  }
}
