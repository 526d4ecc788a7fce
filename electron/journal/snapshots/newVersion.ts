/** A program of another version than the last one: as it begins, what is kept is kept as a snapshot too. */
import { join } from 'node:path';
import { recordsVersion } from '../../../shared-types/records/index.ts';
import { z } from '../../../shared-types/schema.ts';
import { realDisk, type Disk } from '../../files/disk.ts';
import { writeWhole } from '../../files/writeWhole.ts';
import type { SnapshotKeeper } from './keeper.ts';

const fileName = 'program.json';
const noteSchema = z.strictObject({ program: z.string(), records: z.number() });

export interface NewVersionOptions {
  /** Of the snapshots. */
  folder: string;
  keeper: SnapshotKeeper;
  /** Version of the program that begins. */
  program: string;
  /** How far the journal has come; of nothing there is nothing to keep. */
  seq: number;
  disk?: Disk;
}

/** Noted only once the snapshot is made, so that one that failed is made at the next beginning. */
export async function keepBeforeNewVersion(options: NewVersionOptions): Promise<void> {
  const { folder, keeper, program, seq, disk = realDisk } = options;
  const path = join(folder, fileName);
  const text = await disk.readFile(path).catch(() => null);
  const here = { program, records: recordsVersion };
  if (text !== null && isNote(text.toString('utf8'), here)) return;
  if (seq > 0) await keeper.make('before-new-version');
  await disk.mkdir(folder, { recursive: true, mode: 0o700 });
  await writeWhole(path, Buffer.from(`${JSON.stringify(here)}\n`), 0o600, disk);
}

function isNote(text: string, here: z.infer<typeof noteSchema>): boolean {
  try {
    const { success, data } = noteSchema.safeParse(JSON.parse(text));
    return success && data.program === here.program && data.records === here.records;
  } catch {
    return false;
  }
}
