/**
 * One entry: how it is sealed, written, and checked. A line is the entry's canonical JSON and a line feed; its hash is
 * that of the same line without the hash itself. So every byte of it counts, and what is written passes the same check
 * as what is read.
 */
import { createHash } from 'node:crypto';
import type { Refusal } from '../../shared-types/errors.ts';
import { argumentRefusal } from '../../shared-types/ipc.ts';
import { entrySchema, laterEntrySchema, type Change, type JournalEntry } from '../../shared-types/journal.ts';
import { recordSchemas, recordsVersion } from '../../shared-types/records/index.ts';
import { broughtUp } from '../../shared-types/records/versions.ts';
import { canonicalJson } from '../../shared-types/canonicalJson.ts';
import { unfit } from '../../shared-types/unfit.ts';

type Body = Omit<JournalEntry, 'hash'>;

/** The entry, and its line as it stands in the file. */
export function seal(body: Body): { entry: JournalEntry; line: Buffer } {
  const bytes = Buffer.from(canonicalJson(body));
  const hash = createHash('sha256').update(bytes).digest('hex');
  // In order of their names the hash stands before the payload, and what stands before both cannot look like either.
  const at = bytes.indexOf('"payload":');
  const line = Buffer.concat([bytes.subarray(0, at), Buffer.from(fieldOf(hash)), bytes.subarray(at), lineFeed]);
  return { entry: { ...body, hash }, line };
}

const lineFeed = Buffer.from('\n');

function fieldOf(hash: string): string {
  return `"hash":"${hash}",`;
}

/**
 * What is wrong with its shape, or null. Records of a later version are not looked into; those of an earlier one are brought up to this
 * one's shape first.
 */
export function faultOf(entry: unknown): Refusal | null {
  const odd = unfit(entry);
  if (odd !== null) return odd;
  if (isLater(entry)) {
    const framed = laterEntrySchema.safeParse(entry);
    return framed.success ? null : argumentRefusal(framed.error);
  }
  const shaped = entrySchema.safeParse(entry);
  if (!shaped.success) return argumentRefusal(shaped.error);
  const { payload, schema } = shaped.data;
  for (const [index, change] of payload.changes.entries()) {
    const fault = faultOfRecord(change, schema, `payload.changes.${index}.after`);
    if (fault !== null) return fault;
  }
  return null;
}

function isLater(entry: unknown): boolean {
  const schema = (entry as { schema?: unknown } | null)?.schema;
  return typeof schema === 'number' && schema > recordsVersion;
}

function faultOfRecord({ table, id, after }: Change, version: number, field: string): Refusal | null {
  if (after === null) return null;
  const record = recordSchemas[table].safeParse(broughtUp(table, after, version));
  if (!record.success) {
    const first = record.error.issues[0];
    const path = [field, ...(first?.path ?? []).map(String)].join('.');
    return { code: 'wrong-shape', message: `${path}: ${first?.message ?? 'of another shape'}`, field: path };
  }
  if (record.data.id === id) return null;
  return { code: 'wrong-shape', message: `${field}.id is another record's than the change's`, field: `${field}.id` };
}

/** Where a line must stand. `prevHash` is null where the line before it is not at hand. */
export interface Due {
  seq: number;
  prevHash: string | null;
}

/** The entry of one line without its end, or why it is none that may stand there. */
export function readLine(bytes: Buffer, due: Due): { entry: JournalEntry } | { reason: string } {
  let value: unknown;
  try {
    value = JSON.parse(bytes.toString('utf8'));
  } catch {
    return { reason: 'it is not JSON' };
  }
  const fault = faultOf(value);
  if (fault !== null) return { reason: fault.message };
  const entry = value as JournalEntry;
  if (entry.seq !== due.seq) return { reason: `entry ${entry.seq} stands where ${due.seq} belongs` };
  if (due.prevHash !== null && entry.prevHash !== due.prevHash) {
    return { reason: 'it does not follow the entry before it' };
  }
  if (hashOfLine(bytes, entry.hash) !== entry.hash) return { reason: 'its content is not what its hash says' };
  return { entry };
}

/** Of the bytes themselves, not of what they mean: a text that only means the same is not the one that was written. */
export function hashOfLine(bytes: Buffer, hash: string): string {
  const field = fieldOf(hash);
  const at = Math.max(bytes.indexOf(field), 0);
  return createHash('sha256')
    .update(bytes.subarray(0, at))
    .update(bytes.subarray(at + field.length))
    .digest('hex');
}
