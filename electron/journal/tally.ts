/** What the entries add up to, folded one by one: the head of the chain, records per table, the newest, the keys. */
import { emptyHash, recentMost, type Appended, type EntryHead, type JournalEntry } from '../../shared-types/journal.ts';
import { recordsVersion, tableNames, type Counts, type TableName } from '../../shared-types/records/index.ts';

/** How many of the newest entries' keys are known again when they are asked twice. */
const keysMost = 1_000;

export interface Tally {
  seq: number;
  hash: string;
  /** The newest version of records. */
  schema: number;
  counts(): Counts;
  recent(): EntryHead[];
  /** How the entry of that key was answered, where it is among the newest. */
  answered(key: string): Appended | undefined;
  fold(entry: JournalEntry): void;
}

export function newTally(): Tally {
  const ids = Object.fromEntries(tableNames.map((name) => [name, new Set<string>()])) as Record<TableName, Set<string>>;
  const byKey = new Map<string, Appended>();
  let heads: EntryHead[] = [];
  let lastMs = Number.NEGATIVE_INFINITY;
  return {
    seq: 0,
    hash: emptyHash,
    schema: recordsVersion,
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
