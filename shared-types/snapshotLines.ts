/** The lines of a snapshot: written in one order, and read one by one with the reason where one is not what it should be. */
import { canonicalJson } from './canonicalJson.ts';
import { recordSchemas, recordsVersion, tableNames, type TableName } from './records/index.ts';
import { broughtUp, knewTable } from './records/versions.ts';
import { snapshotHeadSchema, type SnapshotHead } from './snapshot.ts';
import { unfit } from './unfit.ts';

type Row = Record<string, unknown>;
export type SnapshotTables = Map<TableName, Map<string, Row>>;

/** Of one table, in order of its keys; each with its line feed. */
export function snapshotLines(name: TableName, records: ReadonlyMap<string, Row>): string[] {
  return inOrderOfIds(records).map(([, record]) => lineOfRecord(name, record));
}

export const lineOfRecord = (name: TableName, record: Row): string => `${canonicalJson([name, record])}\n`;

export const inOrderOfIds = <Held>(byId: ReadonlyMap<string, Held>): [string, Held][] =>
  [...byId].toSorted(([one], [other]) => (one < other ? -1 : 1));

/** The sum of everything before it, as the last line. */
const endForm = /^\{"end":"([0-9a-f]{64})"\}\n$/;
export const endLine = (sum: string): string => `{"end":"${sum}"}\n`;
export const sumInEnd = (line: string): string | null => endForm.exec(line)?.[1] ?? null;

export const notWhole = 'it is not whole: its last line is not the sum of it';
export const notItsSum = 'its content is not what its sum says';

/** What the lines before the last hold: every record checked, and in the shape of this program. `lines` are those of the file, by table. */
export interface ReadLines {
  head: SnapshotHead;
  tables: SnapshotTables;
  lines: ReadonlyMap<TableName, readonly string[]>;
}

/** @param body - everything before the last line; that it is what its sum says is asked before */
export function readLines(body: string): ReadLines | { reason: string } {
  const [first = '', ...rest] = body.split('\n').slice(0, -1);
  const head = headIn(first);
  if ('reason' in head) return head;
  const tables: SnapshotTables = new Map(tableNames.map((name) => [name, new Map()]));
  const lines = new Map<TableName, string[]>(tableNames.map((name) => [name, []]));
  for (const [at, line] of rest.entries()) {
    const taken = takeLine(line, head.records, tables);
    if ('reason' in taken) return { reason: `line ${at + 2}: ${taken.reason}` };
    lines.get(taken.table)?.push(`${line}\n`);
  }
  for (const [name, own] of lines)
    if (own.length !== (head.counts[name] ?? 0))
      return { reason: `it holds ${own.length} of ${name} where it says ${head.counts[name] ?? 0}` };
  return { head, tables, lines };
}

export const notTheirSum = (name: TableName): string => `${name} are not what their sum says`;

function headIn(line: string): SnapshotHead | { reason: string } {
  let value: unknown;
  try {
    value = JSON.parse(line);
  } catch {
    return { reason: 'its first line is not JSON' };
  }
  const newer = newerThanKnown(value);
  if (newer !== null)
    return { reason: `it holds records of version ${newer}; this program knows version ${recordsVersion}` };
  const head = snapshotHeadSchema.safeParse(value);
  return head.success ? head.data : { reason: 'it is not a snapshot of this program' };
}

/** A later head may say more than this program can read; that it is later is told all the same. */
function newerThanKnown(value: unknown): number | null {
  const { bagwright, records } = (value ?? {}) as Partial<SnapshotHead>;
  return bagwright === 'snapshot' && typeof records === 'number' && records > recordsVersion ? records : null;
}

function takeLine(line: string, version: number, tables: SnapshotTables): { table: TableName } | { reason: string } {
  let value: unknown;
  try {
    value = JSON.parse(line);
  } catch {
    return { reason: 'it is not JSON' };
  }
  const odd = unfit(value);
  if (odd !== null) return { reason: odd.message };
  const [name, held] = Array.isArray(value) ? (value as unknown[]) : [];
  const table = tableNames.find((known) => known === name);
  if (table === undefined) return { reason: 'it names no table of this program' };
  if (!knewTable(version, table)) return { reason: `records of version ${version} have no ${table}` };
  const isRow = typeof held === 'object' && held !== null && !Array.isArray(held);
  const record = isRow ? broughtUp(table, held as Row, version) : held;
  const checked = recordSchemas[table].safeParse(record);
  if (!checked.success) {
    const [issue] = checked.error.issues;
    return { reason: `${table}.${(issue?.path ?? []).join('.')}: ${issue?.message ?? 'of another shape'}` };
  }
  const { id } = checked.data;
  if (tables.get(table)?.has(id) === true) return { reason: `${table}: ${id} is there twice` };
  tables.get(table)?.set(id, record as Row);
  return { table };
}
