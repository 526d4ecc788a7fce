/** A journal's records and a snapshot's, looked through as `verify` does it. */
import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { RefusedError } from '../../renderer/engine/errors.ts';
import { checkRecords, type RecordFault } from '../../renderer/engine/records/checkRecords.ts';
import { shortHash } from '../../renderer/engine/record/shortHash.ts';
import { realDisk } from '../files/disk.ts';
import { recordsAt } from '../journal/snapshots/fold.ts';
import { readSnapshot, type Tables } from '../journal/snapshots/format.ts';
import type { Answer } from './command.ts';

export interface RecordsChecked {
  count: number;
  faults: RecordFault[];
}

/** What the entries come to, record by record; asked of a journal that holds. */
export async function recordsOfJournal(place: string, until: { seq: number; hash: string }): Promise<RecordsChecked> {
  return await looked(await recordsAt(place, until, realDisk));
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
