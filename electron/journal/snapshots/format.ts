/** A snapshot's bytes, and what they say. */
import { createHash } from 'node:crypto';
import { canonicalJson } from '../../../shared-types/canonicalJson.ts';
import { recordSchemas, recordsVersion, tableNames, type TableName } from '../../../shared-types/records/index.ts';
import { snapshotHeadSchema, type SnapshotHead } from '../../../shared-types/snapshot.ts';
import { unfit } from '../unfit.ts';

export type Tables = ReadonlyMap<TableName, ReadonlyMap<string, Record<string, unknown>>>;

export interface Content extends Pick<SnapshotHead, 'seq' | 'hash' | 'deviceId' | 'utc' | 'why'> {
  tables: Tables;
}

/** So much is put together before it is handed on. */
const pieceBytes = 1024 * 1024;

/** The file, a piece at a time; the same content gives the same bytes. */
export function* bytesOf(content: Content): Generator<Buffer> {
  const { tables, ...frame } = content;
  const lines = new Map(tableNames.map((name) => [name, linesOf(name, tables.get(name) ?? new Map())]));
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
  yield Buffer.from(`{"end":"${whole.digest('hex')}"}\n`);
}

function linesOf(name: TableName, records: ReadonlyMap<string, Record<string, unknown>>): string[] {
  const inOrder = [...records].toSorted(([one], [other]) => (one < other ? -1 : 1));
  return inOrder.map(([, record]) => `${canonicalJson([name, record])}\n`);
}

function sumOf(lines: readonly string[]): string {
  const sum = createHash('sha256');
  for (const line of lines) sum.update(line);
  return sum.digest('hex');
}

export interface ReadSnapshot {
  head: SnapshotHead;
  tables: Map<TableName, Map<string, Record<string, unknown>>>;
}

/** @returns what the file holds, every record of it checked; or why it cannot be gone by */
export function readSnapshot(bytes: Buffer): ReadSnapshot | { reason: string } {
  const lastLine = bytes.lastIndexOf(0x0a, bytes.length - 2) + 1;
  const end = /^\{"end":"([0-9a-f]{64})"\}\n$/.exec(bytes.subarray(lastLine).toString('latin1'))?.[1];
  if (end === undefined) return { reason: 'it is not whole: its last line is not the sum of it' };
  if (createHash('sha256').update(bytes.subarray(0, lastLine)).digest('hex') !== end)
    return { reason: 'its content is not what its sum says' };
  const [first = '', ...lines] = bytes.subarray(0, lastLine).toString('utf8').split('\n').slice(0, -1);
  const head = headIn(first);
  if ('reason' in head) return head;
  const tables: ReadSnapshot['tables'] = new Map(tableNames.map((name) => [name, new Map()]));
  for (const [at, line] of lines.entries()) {
    const fault = takeLine(line, tables);
    if (fault !== null) return { reason: `line ${at + 2}: ${fault}` };
  }
  for (const name of tableNames) {
    const own = linesOf(name, tables.get(name) ?? new Map());
    if (own.length !== (head.counts[name] ?? 0))
      return { reason: `it holds ${own.length} of ${name} where it says ${head.counts[name] ?? 0}` };
    if (own.length > 0 && sumOf(own) !== head.sums[name]) return { reason: `${name} are not what their sum says` };
  }
  return { head, tables };
}

function headIn(line: string): SnapshotHead | { reason: string } {
  let value: unknown;
  try {
    value = JSON.parse(line);
  } catch {
    return { reason: 'its first line is not JSON' };
  }
  const head = snapshotHeadSchema.safeParse(value);
  if (!head.success) return { reason: 'it is not a snapshot of this program' };
  const { records } = head.data;
  if (records > recordsVersion)
    return { reason: `it holds records of version ${records}; this program knows version ${recordsVersion}` };
  return head.data;
}

function takeLine(line: string, tables: ReadSnapshot['tables']): string | null {
  let value: unknown;
  try {
    value = JSON.parse(line);
  } catch {
    return 'it is not JSON';
  }
  const odd = unfit(value);
  if (odd !== null) return odd.message;
  const [name, record] = Array.isArray(value) ? (value as unknown[]) : [];
  const table = tableNames.find((known) => known === name);
  if (table === undefined) return 'it names no table of this program';
  const checked = recordSchemas[table].safeParse(record);
  if (!checked.success) {
    const [issue] = checked.error.issues;
    return `${table}.${(issue?.path ?? []).join('.')}: ${issue?.message ?? 'of another shape'}`;
  }
  const { id } = checked.data;
  if (tables.get(table)?.has(id) === true) return `${table}: ${id} is there twice`;
  tables.get(table)?.set(id, record as Record<string, unknown>);
  return null;
}
