/** A file with everything in it: a snapshot, or what a window saved as one text. */
import { RefusedError } from '../errors.ts';
import { readJson } from '../json/readJson.ts';
import type { Digest } from '../record/chain.ts';
import { checkRecords } from '../records/checkRecords.ts';
import type { KeptTables } from '../records/checkRecords.ts';
import { everythingBytesMax } from './everythingBytes.ts';
import { readExport } from './readExport.ts';
import type { ReadExport } from './readExport.ts';
import { readSnapshotText } from './readSnapshotText.ts';
import type { AllTables } from './readSnapshotText.ts';

export interface Everything {
  kind: 'snapshot' | 'export';
  /** The clock's claim of when it was made. */
  made: string;
  /** Version of its records, before they were brought up. */
  records: number;
  /** Of an export: which of its halves was gone by. */
  by: ReadExport['by'] | null;
  tables: AllTables;
}

/**
 * Reads such a file strictly, and looks every record through: its shape, what it names, what is there twice, every chain.
 *
 * @param text - the whole file
 * @param file - its name, for refusals
 * @param digest - SHA-256
 * @param onRead - told how many records it holds, before they are looked through
 * @returns its records in this program's shape
 * @throws RefusedError too-large before anything is read; naming file, and row or field of the first fault; of faulty records all of them
 */
export async function readEverything(
  text: string,
  file: string,
  digest: Digest,
  onRead: (count: number) => void = () => undefined,
): Promise<Everything> {
  try {
    // No text has fewer bytes than UTF-16 has units.
    if (text.length > everythingBytesMax)
      throw new RefusedError({
        code: 'too-large',
        message: `It has more than ${everythingBytesMax / 1024 / 1024} MiB, the most that is read`,
      });
    const read = await readHalf(text, file, digest);
    onRead([...read.tables.values()].reduce((sum, { size }) => sum + size, 0));
    const faults = await checkRecords(read.tables as KeptTables, digest);
    const [first] = faults;
    if (first === undefined) return read;
    const refusals = faults.map(({ table, id, message }) => ({
      ...{ code: 'contradiction' as const, message: `${table} ${id}: ${message}`, field: table, value: id },
    }));
    throw new RefusedError({
      ...refusals[0],
      code: 'contradiction',
      message: refusals[0]?.message ?? '',
      rows: refusals,
    });
  } catch (error) {
    throw error instanceof RefusedError ? error.within({ file }) : error;
  }
}

async function readHalf(text: string, file: string, digest: Digest): Promise<Everything> {
  // As its canonical first line begins; what only looks like one is not whole by its sum.
  if (text.startsWith('{"bagwright":"snapshot"')) {
    const read = await readSnapshotText(text, digest);
    if ('reason' in read)
      throw new RefusedError({
        code: 'unreadable-file',
        message: `It cannot be gone by: ${read.reason}`,
        ...rowIn(read.reason),
      });
    const { head, tables } = read;
    return { kind: 'snapshot', made: head.utc, records: head.records, by: null, tables };
  }
  const given = readJson(text, { file, maxBytes: everythingBytesMax });
  const { bagwright, form } = (given ?? {}) as { bagwright?: unknown; form?: unknown };
  if (bagwright !== 'everything')
    throw new RefusedError({
      code: 'wrong-shape',
      message: 'It is neither a snapshot nor everything saved as one text',
      ...{ field: 'bagwright', value: typeof bagwright === 'string' ? bagwright : null },
    });
  if (typeof form === 'number' && form > 1)
    throw new RefusedError({
      code: 'not-available',
      message: `It has form ${form}; this program knows form 1`,
      ...{ field: 'form', value: form },
    });
  const { tables, savedAt, records, by } = await readExport(given, digest, { text });
  return { kind: 'export', made: savedAt, records, by, tables };
}

function rowIn(reason: string): { row?: number } {
  const [, row] = /^line (\d+):/.exec(reason) ?? [];
  return row === undefined ? {} : { row: Number(row) };
}
