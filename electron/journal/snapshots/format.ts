/** A snapshot's bytes, and what they say. */
import { createHash } from 'node:crypto';
import { canonicalJson } from '../../../shared-types/canonicalJson.ts';
import { recordsVersion, tableNames, type TableName } from '../../../shared-types/records/index.ts';
import type { SnapshotHead } from '../../../shared-types/snapshot.ts';
import {
  endLine,
  notItsSum,
  notTheirSum,
  notWhole,
  readLines,
  snapshotLines,
  sumInEnd,
  type SnapshotTables,
} from '../../../shared-types/snapshotLines.ts';

export type Tables = ReadonlyMap<TableName, ReadonlyMap<string, Record<string, unknown>>>;

export interface Content extends Pick<SnapshotHead, 'seq' | 'hash' | 'deviceId' | 'utc' | 'why'> {
  tables: Tables;
}

/** So much is put together before it is handed on. */
const pieceBytes = 1024 * 1024;

/** The file, a piece at a time; the same content gives the same bytes. */
export function* bytesOf(content: Content): Generator<Buffer> {
  const { tables, ...frame } = content;
  const lines = new Map(tableNames.map((name) => [name, snapshotLines(name, tables.get(name) ?? new Map())]));
  const head: SnapshotHead = {
    bagwright: 'snapshot',
    form: 1,
    records: recordsVersion,
    ...frame,
    counts: Object.fromEntries([...lines].map(([name, own]) => [name, own.length])),
    sums: Object.fromEntries([...lines].map(([name, own]) => [name, sumOf(own)])),
  };
  const whole = createHash('sha256');
  let held: string[] = [];
  let size = 0;
  const piece = (): Buffer => {
    const bytes = Buffer.from(held.join(''));
    whole.update(bytes);
    [held, size] = [[], 0];
    return bytes;
  };
  held.push(`${canonicalJson(head)}\n`);
  for (const own of lines.values()) {
    for (const line of own) {
      held.push(line);
      size += line.length;
      if (size >= pieceBytes) yield piece();
    }
  }
  if (held.length > 0) yield piece();
  yield Buffer.from(endLine(whole.digest('hex')));
}

function sumOf(lines: readonly string[]): string {
  const sum = createHash('sha256');
  for (const line of lines) sum.update(line);
  return sum.digest('hex');
}

export interface ReadSnapshot {
  head: SnapshotHead;
  tables: SnapshotTables;
}

/** @returns what the file holds, every record of it checked; or why it cannot be gone by */
export function readSnapshot(bytes: Buffer): ReadSnapshot | { reason: string } {
  const lastLine = bytes.lastIndexOf(0x0a, bytes.length - 2) + 1;
  const end = sumInEnd(bytes.subarray(lastLine).toString('latin1'));
  if (end === null) return { reason: notWhole };
  if (createHash('sha256').update(bytes.subarray(0, lastLine)).digest('hex') !== end) return { reason: notItsSum };
  const read = readLines(bytes.subarray(0, lastLine).toString('utf8'));
  if ('reason' in read) return read;
  const { head, tables, lines } = read;
  for (const [name, own] of lines)
    if (own.length > 0 && sumOf(own) !== head.sums[name]) return { reason: notTheirSum(name) };
  return { head, tables };
}
