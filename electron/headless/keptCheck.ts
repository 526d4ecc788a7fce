/** A journal's records and a snapshot's, looked through as `verify` does it. */
import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { RefusedError } from '../../renderer/engine/errors.ts';
import { checkRecords, type RecordFault } from '../../renderer/engine/records/checkRecords.ts';
import { shortHash } from '../../renderer/engine/record/shortHash.ts';
import { realDisk } from '../files/disk.ts';
import { recordsAt } from '../journal/snapshots/fold.ts';
import { readSnapshot, type Tables } from '../journal/snapshots/format.ts';
import { readPage } from '../journal/pages.ts';
import { snapshotKeeper } from '../journal/snapshots/keeper.ts';
import type { Answer } from './command.ts';

export interface RecordsChecked {
  count: number;
  faults: RecordFault[];
}

/** What the entries come to, record by record; asked of a journal that holds. */
export async function recordsOfJournal(place: string, until: { seq: number; hash: string }): Promise<RecordsChecked> {
  return await looked(await recordsAt(place, until, realDisk));
}

/** The snapshot that goes furthest beyond the last entry, where the snapshots' folder lies beside the journal's: its end was cut off. */
export async function furtherThan(
  entries: string,
  seq: number,
): Promise<{ file: string | null; number: number; records: number | null; damaged: number } | null> {
  const journal = dirname(entries);
  if (basename(journal) !== 'journal') return null;
  const unasked = (): Promise<never> => Promise.reject(new Error('the journal is not asked'));
  const keeper = snapshotKeeper({ folder: join(dirname(journal), 'snapshots'), journal: unasked });
  const hashAt = async (at: number): Promise<string | null> =>
    (await readPage(entries, { from: at, through: seq }, realDisk)).entries[0]?.hash ?? null;
  const deviceId = await readFile(join(journal, 'device'), 'utf8').catch(() => '');
  const further = await keeper.further({ seq, deviceId: deviceId.trim(), hashAt }).catch(() => null);
  if (further === null) return null;
  const { whole, damaged } = further;
  return {
    ...{ file: whole?.name ?? null, number: whole?.seq ?? damaged?.seq ?? 0 },
    ...{ records: whole?.records ?? null, damaged: damaged?.count ?? 0 },
  };
}

async function looked(tables: Tables): Promise<RecordsChecked> {
  const count = [...tables.values()].reduce((sum, records) => sum + records.size, 0);
  return { count, faults: await checkRecords(tables, digest) };
}

/** @throws RefusedError where the file cannot be read at all */
export async function snapshotAnswer(file: string): Promise<Answer> {
  const bytes = await readFile(file).catch((cause: NodeJS.ErrnoException) => {
    throw new RefusedError({
      code: 'unreadable-file',
      message: `${file} cannot be read: ${cause.code ?? cause.message}`,
      file,
    });
  });
  const read = readSnapshot(bytes);
  if ('reason' in read)
    return {
      exit: 1,
      result: { kind: 'snapshot', whole: false, head: null, records: null, fault: { reason: read.reason } },
    };
  const { seq, hash, utc, why } = read.head;
  const records = await looked(read.tables);
  const head = { number: seq, hash, short: shortHash(hash) };
  const isWhole = records.faults.length === 0;
  return {
    exit: isWhole ? 0 : 1,
    result: { kind: 'snapshot', whole: isWhole, made: utc, why, head, records, fault: null },
  };
}

function digest(text: string): Promise<string> {
  return Promise.resolve(createHash('sha256').update(text).digest('hex'));
}
