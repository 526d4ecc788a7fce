/** A snapshot's bytes, and what they say. */
import { createHash } from 'node:crypto';
import { canonicalJson } from '../../../shared-types/canonicalJson.ts';
import { recordsVersion, tableNames, type TableName } from '../../../shared-types/records/index.ts';
import { readSnapshotName, snapshotHeadSchema, type SnapshotHead } from '../../../shared-types/snapshot.ts';
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

/** Of each table its records' lines, in order of their ids, each with its line feed. */
export type Lines = ReadonlyMap<TableName, readonly string[]>;

export type Frame = Pick<SnapshotHead, 'seq' | 'hash' | 'deviceId' | 'utc' | 'why'>;

/** So much is put together before it is handed on. */
const pieceLength = 1024 * 1024;

/** A file as it is to be written: its bytes in pieces, and the SHA-256 of all of them. */
export interface FileBytes {
  pieces: readonly Buffer[];
  sum: string;
}

/** The same content gives the same bytes. */
export function bytesOf(frame: Frame, lines: Lines): FileBytes {
  const sums: Record<string, string> = {};
  const counts: Record<string, number> = {};
  const body: Buffer[] = [];
  for (const name of tableNames) {
    const own = lines.get(name) ?? [];
    const pieces = inPieces(own);
    [sums[name], counts[name]] = [sumOf(pieces), own.length];
    body.push(...pieces);
  }
  const head: SnapshotHead = { bagwright: 'snapshot', form: 1, records: recordsVersion, ...frame, counts, sums };
  const pieces = [Buffer.from(`${canonicalJson(head)}\n`), ...body];
  const whole = createHash('sha256');
  for (const piece of pieces) whole.update(piece);
  const end = Buffer.from(endLine(whole.copy().digest('hex')));
  return { pieces: [...pieces, end], sum: whole.update(end).digest('hex') };
}

export const linesOf = (tables: Tables): Lines =>
  new Map(tableNames.map((name) => [name, snapshotLines(name, tables.get(name) ?? new Map())]));

function inPieces(lines: readonly string[]): Buffer[] {
  const pieces: Buffer[] = [];
  for (let [from, to, length] = [0, 0, 0]; to < lines.length;) {
    length += lines[to]?.length ?? 0;
    to += 1;
    if (length < pieceLength && to < lines.length) continue;
    pieces.push(Buffer.from(lines.slice(from, to).join('')));
    [from, length] = [to, 0];
  }
  return pieces;
}

export function sumOf(pieces: readonly (Buffer | string)[]): string {
  const sum = createHash('sha256');
  for (const piece of pieces) sum.update(piece);
  return sum.digest('hex');
}

/** The bytes before the last line, where that line is the sum of them. */
function summedBody(bytes: Buffer): Buffer | { reason: string } {
  const lastLine = bytes.lastIndexOf(0x0a, bytes.length - 2) + 1;
  const end = sumInEnd(bytes.subarray(lastLine).toString('latin1'));
  if (end === null) return { reason: notWhole };
  const body = bytes.subarray(0, lastLine);
  return sumOf([body]) === end ? body : { reason: notItsSum };
}

/** Why the last line is not the sum of all before it, or null. */
export function faultOfSum(bytes: Buffer): string | null {
  const body = summedBody(bytes);
  return 'reason' in body ? body.reason : null;
}

/** Why it does not belong to its name, or null; of one that says nothing of itself that is not asked. */
export function faultOfName(name: string, bytes: Buffer): { reason: string } | null {
  const head = headIn(bytes.subarray(0, Math.max(bytes.indexOf(0x0a), 0)).toString('utf8'));
  const named = readSnapshotName(name);
  if (head === null || named === null) return null;
  const fits = head.seq === named.seq && head.why === named.why && head.utc.slice(0, 19) === named.utc.slice(0, 19);
  const reason = `it holds what was kept at ${head.utc.slice(0, 19)}Z up to entry ${head.seq}, and its name says otherwise`;
  return fits ? null : { reason };
}

export interface ReadSnapshot {
  head: SnapshotHead;
  tables: SnapshotTables;
}

/** @returns what the file holds, every record of it checked; or why it cannot be gone by */
export function readSnapshot(bytes: Buffer): ReadSnapshot | { reason: string } {
  const body = summedBody(bytes);
  if ('reason' in body) return body;
  const read = readLines(body.toString('utf8'));
  if ('reason' in read) return read;
  const { head, tables, lines } = read;
  for (const [name, own] of lines)
    if (own.length > 0 && sumOf(own) !== head.sums[name]) return { reason: notTheirSum(name) };
  return { head, tables };
}

/** A snapshot to go on from. */
export interface SnapshotBase {
  head: SnapshotHead;
  lines: Lines;
}

/**
 * What the file holds, by its sums: none has a snapshot's name whose lines did not come from a verified journal, and this program
 * would write the same ones. Those of another version are read record by record, and written as this one has them.
 */
export function baseIn(bytes: Buffer): SnapshotBase | { reason: string } {
  const body = summedBody(bytes);
  if ('reason' in body) return body;
  const text = body.toString('utf8');
  const [first = '', ...rest] = text.split('\n').slice(0, -1);
  const head = headIn(first);
  if (head?.records !== recordsVersion) {
    const read = readSnapshot(bytes);
    return 'reason' in read ? read : { head: read.head, lines: linesOf(read.tables) };
  }
  const lines = new Map<TableName, readonly string[]>();
  let from = 0;
  for (const name of tableNames) {
    const to = from + (head.counts[name] ?? 0);
    const own = rest.slice(from, to).map((line) => `${line}\n`);
    if (own.length > 0 && sumOf([own.join('')]) !== head.sums[name]) return { reason: notTheirSum(name) };
    lines.set(name, own);
    from = to;
  }
  return from === rest.length ? { head, lines } : { reason: `it holds ${rest.length} records where it says ${from}` };
}

function headIn(line: string): SnapshotHead | null {
  try {
    return snapshotHeadSchema.safeParse(JSON.parse(line)).data ?? null;
  } catch {
    return null;
  }
}
