/** What the entries add up to, folded one by one: the head of the chain, records per table, the newest, the keys. */
import {
  emptyHash,
  hashSchema,
  recentMost,
  type Appended,
  type EntryHead,
  type JournalEntry,
} from '../../shared-types/journal.ts';
import { recordsVersion, tableNames, type Counts, type TableName } from '../../shared-types/records/index.ts';
import { z } from '../../shared-types/schema.ts';

/** How many of the newest entries' keys are known again when they are asked twice. */
const keysMost = 1_000;

export interface Tally {
  seq: number;
  hash: string;
  /** The newest version of records. */
  schema: number;
  counts(): Counts;
  state(): TallyState;
  recent(): EntryHead[];
  /** How the entry of that key was answered, where it is among the newest. */
  answered(key: string): Appended | undefined;
  fold(entry: JournalEntry): void;
}

/** All of it, as a checkpoint keeps it. */
export const tallyStateSchema = z.strictObject({
  seq: z.int().min(0),
  hash: hashSchema,
  schema: z.int().min(1),
  lastUtc: z.string().nullable(),
  heads: z.array(z.custom<EntryHead>((value) => typeof value === 'object' && value !== null && 'seq' in value)),
  answers: z.array(z.tuple([z.string(), z.strictObject({ seq: z.int(), hash: hashSchema, utc: z.string() })])),
  ids: z.record(z.enum(tableNames), z.array(z.string())),
});

export type TallyState = z.infer<typeof tallyStateSchema>;

/** @param from - where an earlier one stood; without it, before the first entry */
export function newTally(from: TallyState | null = null): Tally {
  const ids = Object.fromEntries(tableNames.map((name) => [name, new Set(from?.ids[name])])) as Record<
    TableName,
    Set<string>
  >;
  const byKey = new Map<string, Appended>(from?.answers);
  let heads: EntryHead[] = [...(from?.heads ?? [])];
  let lastUtc = from?.lastUtc ?? null;
  let lastMs = lastUtc === null ? Number.NEGATIVE_INFINITY : Date.parse(lastUtc);
  return {
    seq: from?.seq ?? 0,
    hash: from?.hash ?? emptyHash,
    schema: from?.schema ?? recordsVersion,
    state() {
      const { seq, hash, schema } = this;
      const held = Object.fromEntries(tableNames.map((name) => [name, [...ids[name]]])) as TallyState['ids'];
      return { seq, hash, schema, lastUtc, heads: heads.slice(-recentMost), answers: [...byKey], ids: held };
    },
    counts: () => Object.fromEntries(tableNames.map((name) => [name, ids[name].size])) as Counts,
    recent: () => heads.slice(-recentMost),
    answered: (key) => byKey.get(key),
    fold(entry) {
      const { seq, hash, utc, payload } = entry;
      for (const { table, id, after } of payload.changes) {
        // A table of a later version is not counted: the program that has it writes on.
        const known = ids[table] as Set<string> | undefined;
        if (after === null) known?.delete(id);
        else known?.add(id);
      }
      const atMs = Date.parse(utc);
      heads.push(headOf(entry, atMs < lastMs));
      if (heads.length > 2 * recentMost) heads = heads.slice(-recentMost);
      lastMs = atMs;
      lastUtc = utc;
      byKey.set(payload.key, { seq, hash, utc });
      // A Map remembers the order of insertion: the first is the oldest.
      if (byKey.size > keysMost) byKey.delete(byKey.keys().next().value ?? '');
      this.seq = seq;
      this.hash = hash;
      this.schema = Math.max(this.schema, entry.schema);
    },
  };
}

function headOf({ seq, utc, tzOffset, user, action, payload }: JournalEntry, clockWentBack: boolean): EntryHead {
  const { title, key, undoable, of } = payload;
  return { seq, utc, tzOffset, user, action, title, key, undoable, ...(of === undefined ? {} : { of }), clockWentBack };
}
