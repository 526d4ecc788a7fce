/**
 * The journal: the program's own truth, kept by the host outside the browser's profile. One line for each thing a
 * person did, in order, each chained to the one before it. A change counts as saved once its line is on the disk and the
 * database has it too.
 */
import { note } from './fields.ts';
import { recordId } from './records/head.ts';
import { tableNames, type Counts } from './records/index.ts';
import { z } from './schema.ts';
import type { FurtherSnapshots } from './snapshot.ts';

/** Some record, by its look alone: of which table it must be, the tables' own schemas say. */
const anyRecord = z.custom<Record<string, unknown>>(
  (value) => typeof value === 'object' && value !== null && !Array.isArray(value),
  'not a record',
);

/** One record before and after. Absent on one side: it came, or went. */
export const changeSchema = z.strictObject({
  table: z.enum(tableNames),
  id: recordId,
  before: anyRecord.nullable(),
  after: anyRecord.nullable(),
});

export const payloadSchema = z.strictObject({
  /** In words, as the history and Undo show it: "Edit S-18D". */
  title: note,
  /** Made by the window for this one act, so that asking twice writes once. */
  key: z.uuid(),
  undoable: z.boolean(),
  /** For `undo` and `redo`: the sequence of the entry whose changes are turned round. */
  of: z.int().min(1).optional(),
  changes: z.array(changeSchema).min(1).max(200_000),
});

/** Tables that a later version of the program may have. */
const laterPayloadSchema = payloadSchema.extend({
  changes: z
    .array(changeSchema.extend({ table: z.string().regex(/^[A-Za-z]{1,40}$/) }))
    .min(1)
    .max(200_000),
});

const actionSchema = z.string().regex(/^[a-z][a-z-]{0,39}$/);
export const hashSchema = z.string().regex(/^[0-9a-f]{64}$/);

export const entrySchema = z.strictObject({
  /** 1, 2, 3 …: the only order there is. */
  seq: z.int().min(1),
  deviceId: z.string().regex(/^[0-9a-f]{32}$/),
  /** The clock's claim, never used for order. */
  utc: z.iso.datetime(),
  /** Minutes east of UTC. */
  tzOffset: z.int().min(-900).max(900),
  user: z.string().max(2000),
  action: actionSchema,
  payload: payloadSchema,
  /** Version of the records within. */
  schema: z.int().min(1),
  prevHash: hashSchema,
  /** SHA-256 of the entry's canonical JSON without this field. */
  hash: hashSchema,
});

/** An entry of a later version: its frame is read, so that it is told from damage; what is in it is not. */
export const laterEntrySchema = entrySchema.extend({ payload: laterPayloadSchema });

/** Made by the host for the window that may write. */
export const leaseIdSchema = z.string().regex(/^[0-9a-f]{32}$/, 'not a lease');

/** Before the first entry. */
export const emptyHash = '0'.repeat(64);

export const appendRequestSchema = z.strictObject({
  /** The lease under which this window writes. */
  lease: leaseIdSchema,
  /** The next in order. Any other number means that the window has missed something. */
  seq: z.int().min(1),
  user: z.string().max(2000),
  action: actionSchema,
  payload: payloadSchema,
});

export type Change = z.infer<typeof changeSchema>;
export type JournalPayload = z.infer<typeof payloadSchema>;
export type JournalEntry = z.infer<typeof entrySchema>;
export type AppendRequest = z.infer<typeof appendRequestSchema>;

/** An entry without its changes, as history shows it. */
export interface EntryHead {
  seq: number;
  utc: string;
  tzOffset: number;
  user: string;
  action: string;
  title: string;
  key: string;
  undoable: boolean;
  of?: number;
  /** The clock stood earlier than at the entry before. */
  clockWentBack: boolean;
}

export interface JournalDamage {
  /** The last entry that is whole and in its place. */
  intactSeq: number;
  /** Where it stops: name of the file, line, and why. */
  file: string;
  line: number;
  reason: string;
}

export interface JournalState {
  /** Of the last intact entry; 0 and `emptyHash` for an empty journal. */
  seq: number;
  hash: string;
  /** How many records each table holds after the last intact entry. */
  counts: Counts;
  /** The newest version of records in it. */
  schema: number;
  /** Name of the browser's database that belongs to it. */
  database: string;
  damage: JournalDamage | null;
  /** Bytes of a line that was never finished; they were moved to the file named. */
  tail: { bytes: number; file: string } | null;
  /** Snapshots that go further than the last intact entry. */
  further: FurtherSnapshots | null;
  /** The newest, at most `recentMost`, oldest first. */
  recent: EntryHead[];
}

export const recentMost = 400;

export interface Appended {
  seq: number;
  hash: string;
  utc: string;
}

export interface JournalPage {
  entries: JournalEntry[];
  /** Where to go on reading; null at the end. */
  next: number | null;
}

/** The right to write. One window has it; it ends with the window, or when another takes it over. */
export interface Lease {
  id: string;
  /** Gives it back. */
  end(): void;
}

/** Why a window may not write any more whose program is gone. */
export const hostEnded = 'The program behind this window has ended: start Bagwright again.';
