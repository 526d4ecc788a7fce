/** A journal with snapshots beside it, as their tests begin with it. */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';
import { snapshotKeeper } from '../../../electron/journal/snapshots/keeper.ts';
import type { Change } from '../../../shared-types/journal.ts';
import { faultyDisk } from './faultyDisk.ts';
import { journalUnderTest, steadyClock } from './journalUnderTest.ts';

const scratch = mkdtempSync(join(tmpdir(), 'bagwright-snapshots-'));
afterAll(() => rmSync(scratch, { recursive: true, force: true }));
let folders = 0;
export const freshFolder = (): string => join(scratch, String((folders += 1)));

/** A journal with a few shelves, and a keeper beside it on a disk that fails as asked. */
export async function kept(count = 12) {
  const journal = journalUnderTest();
  await journal.open();
  for (let seq = 1; seq <= count; seq += 1) await journal.add(seq);
  const disk = faultyDisk({ realSyncs: false });
  const folder = freshFolder();
  const keeper = snapshotKeeper({ folder, journal: () => journal.standing(), disk, clock: steadyClock() });
  let seq = count;
  const add = async (...changes: Change[]): Promise<void> => {
    seq += 1;
    await journal.add(seq, { changes });
  };
  /** The bytes of one that has none before it. */
  const everyLine = async (): Promise<Buffer> => {
    const apart = freshFolder();
    const made = await snapshotKeeper({ folder: apart, journal: () => journal.standing() }).make('asked');
    return readFileSync(join(apart, made?.name ?? ''));
  };
  return {
    journal,
    disk,
    folder,
    keeper,
    add,
    everyLine,
    names: () => readdirSync(folder).filter((name) => name.endsWith('.snapshot')),
  };
}
