import type { AnyRecord, TableName } from '../../../shared-types/records/index.ts';
import { recordsVersion, tableNames } from '../../../shared-types/records/index.ts';
import type { SnapshotHead } from '../../../shared-types/snapshot.ts';
import {
  endLine,
  notItsSum,
  notTheirSum,
  notWhole,
  readLines,
  snapshotLines,
  sumInEnd,
} from '../../../shared-types/snapshotLines.ts';
import { canonicalJson } from '../../../shared-types/canonicalJson.ts';
import type { Digest } from '../record/chain.ts';

export type AllTables = ReadonlyMap<TableName, ReadonlyMap<string, AnyRecord>>;

/**
 * What a snapshot's text holds: its own sum first, then head, records and the sum of each table.
 *
 * @param text - the whole file
 * @param digest - SHA-256
 * @returns head and records in this program's shape, or why it cannot be gone by
 */
export async function readSnapshotText(
  text: string,
  digest: Digest,
): Promise<{ head: SnapshotHead; tables: AllTables } | { reason: string }> {
  const lastLine = text.lastIndexOf('\n', text.length - 2) + 1;
  const end = sumInEnd(text.slice(lastLine));
  if (end === null) return { reason: notWhole };
  const body = text.slice(0, lastLine);
  if ((await digest(body)) !== end) return { reason: notItsSum };
  const read = readLines(body);
  if ('reason' in read) return read;
  const { head, tables, lines } = read;
  for (const [name, own] of lines)
    if (own.length > 0 && (await digest(own.join(''))) !== head.sums[name]) return { reason: notTheirSum(name) };
  return { head, tables: tables as unknown as AllTables };
}

/**
 * A snapshot's text, byte for byte as the program around the window writes the same records.
 *
 * @param frame - what its head says beside counts and sums
 * @param tables - every record of every table
 * @param digest - SHA-256
 * @returns the whole file
 */
export async function snapshotText(
  frame: Pick<SnapshotHead, 'seq' | 'hash' | 'deviceId' | 'utc' | 'why'>,
  tables: AllTables,
  digest: Digest,
): Promise<string> {
  const counts: Record<string, number> = {};
  const sums: Record<string, string> = {};
  const parts: string[] = [];
  for (const name of tableNames) {
    const own = snapshotLines(
      name,
      (tables.get(name) ?? new Map()) as ReadonlyMap<string, AnyRecord & Record<string, unknown>>,
    );
    const part = own.join('');
    counts[name] = own.length;
    sums[name] = await digest(part);
    parts.push(part);
  }
  const { seq, hash, deviceId, utc, why } = frame;
  const head: SnapshotHead = {
    ...{ bagwright: 'snapshot', form: 1, records: recordsVersion },
    ...{ seq, hash, deviceId, utc, why, counts, sums },
  };
  const body = `${canonicalJson(head)}\n${parts.join('')}`;
  return body + endLine(await digest(body));
}
