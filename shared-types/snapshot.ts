/**
 * A snapshot: all records as they stood after one entry of the journal, in one file. Its first line is its head, then a line for
 * each record, and last the SHA-256 of everything before; so a file that was cut, changed or is of another kind is told at once.
 */
import { tableNames, type Counts, type TableName } from './records/index.ts';
import { z } from './schema.ts';

const hash = z.string().regex(/^[0-9a-f]{64}$/);
const perTable = <T extends z.ZodType>(value: T): z.ZodRecord<z.ZodString, T> =>
  z.record(z.string().regex(/^[A-Za-z]{1,40}$/), value);

/** Why a window asks for one. */
const askedReasons = ['asked', 'before-restore', 'before-recovery', 'before-deletion', 'before-large-change'] as const;
export type AskedReason = (typeof askedReasons)[number];

/** Why one was made. */
export const snapshotReasons = ['half-hour', 'leaving', 'before-new-version', ...askedReasons] as const;
export type SnapshotReason = (typeof snapshotReasons)[number];

/** What was there before all of it became another is kept for ever. */
export const keptForEver: ReadonlySet<SnapshotReason> = new Set([
  'before-restore',
  'before-recovery',
  'before-new-version',
]);

export const snapshotHeadSchema = z.strictObject({
  bagwright: z.literal('snapshot'),
  form: z.literal(1),
  /** Version of the records' shapes. */
  records: z.int().min(1),
  /** The last entry that is in it, and its hash. */
  seq: z.int().min(0),
  hash,
  deviceId: z.string().regex(/^[0-9a-f]{32}$/),
  /** The clock's claim. */
  utc: z.iso.datetime(),
  why: z.enum(snapshotReasons),
  /** Of each table: how many records, and the SHA-256 of their lines. */
  counts: perTable(z.int().min(0)),
  sums: perTable(hash),
});
export type SnapshotHead = z.infer<typeof snapshotHeadSchema>;

/** The folder beside the journal, or the second one. */
export type SnapshotFolder = 'here' | 'second';

/** One file as the list shows it. */
export interface KeptSnapshot {
  name: string;
  bytes: number;
  /** Where it lies and is what its sum says. */
  places: SnapshotFolder[];
  /** Where it lies and cannot be gone by, each with why. */
  damaged: { place: SnapshotFolder; reason: string }[];
  seq: number;
  utc: string;
  why: SnapshotReason;
  /** It goes further than the journal did when that was last opened, and nobody has said that this is meant. */
  further: boolean;
}

export interface SnapshotList {
  /** Newest first. */
  snapshots: KeptSnapshot[];
  /** Files there that end as snapshots do and have another's name: copies a person made. They are not gone by. */
  otherNames: string[];
  /** Where they lie, for the user to read. */
  folder: string;
  /** Null where no second folder was chosen; `fault` where it does not take anything. */
  second: { folder: string; fault: string | null } | null;
  /** Set while nothing is cleared away, because far less is kept than was: by how much, for a person to say that it is meant. */
  shrunk: { from: number; to: number; tables: string[] } | null;
}

/** Some of a snapshot's records; the head comes with each. */
export interface SnapshotPage {
  head: SnapshotHead;
  records: [table: TableName, record: Record<string, unknown>][];
  next: number | null;
}

/** Snapshots that go up to a later entry than the journal, where nobody has said that this is meant. */
export interface FurtherSnapshots {
  /** The one that goes furthest of those that are whole. */
  whole: { name: string; utc: string; seq: number; records: number } | null;
  /** What goes further still and cannot be gone by: how many, and up to which entry by their names. */
  damaged: { count: number; seq: number } | null;
}

/** What a person may say is meant: that far less is kept than was, or that snapshots go further than the journal; `through`: those up to that entry. */
const meantThing = z.discriminatedUnion('what', [
  z.strictObject({ what: z.literal('less-is-kept') }),
  z.strictObject({ what: z.literal('snapshots-go-further'), through: z.int().min(0).optional() }),
]);
export type MeantThing = z.infer<typeof meantThing>;

/** The name of a file says when and why it was made, and up to which entry it goes; the rest is inside. */
const nameForm = /^(\d{4}-\d\d-\d\dT\d\d-\d\d-\d\dZ)_(\d{12})_([a-z-]{1,40})(?:_\d{1,4})?\.snapshot$/;

const snapshotName = z.string().max(120).regex(nameForm, 'not the name of a snapshot');

export function nameOfSnapshot(x: { utc: string; seq: number; why: SnapshotReason; again: number }): string {
  const when = `${x.utc.slice(0, 19).replaceAll(':', '-')}Z`;
  const tail = x.again === 0 ? '' : `_${x.again}`;
  return `${when}_${String(x.seq).padStart(12, '0')}_${x.why}${tail}.snapshot`;
}

export function readSnapshotName(name: string): { utc: string; seq: number; why: SnapshotReason } | null {
  const [, when = '', seq = '', why = ''] = nameForm.exec(name) ?? [];
  const known = snapshotReasons.find((reason) => reason === why);
  if (known === undefined) return null;
  const [day = '', time = ''] = when.slice(0, -1).split('T');
  return { utc: `${day}T${time.replaceAll('-', ':')}Z`, seq: Number(seq), why: known };
}

export const snapshotRequests = {
  make: z.strictObject({ why: z.enum(askedReasons) }),
  read: z.strictObject({ name: snapshotName, from: z.int().min(0) }),
  meant: meantThing,
} as const;

export function totalOfCounts(counts: Counts | Record<string, number>): number {
  return tableNames.reduce((sum, name) => sum + (counts[name] ?? 0), 0);
}
