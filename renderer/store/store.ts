/** What the screens know of the store: tables that keep themselves current, and one way to change them. */
import type { Change, EntryHead, JournalDamage, JournalEntry, JournalState } from '../../shared-types/journal.ts';
import type { FurtherSnapshots } from '../../shared-types/snapshot.ts';
import type { AnyRecord, Counts, RecordOf, TableName } from '../../shared-types/records/index.ts';

/** A record as it shall be. Its `rev` is that of the version it was made from; 0 for a new one. */
type Put = { [T in TableName]: { table: T; put: RecordOf<T> } }[TableName];
type Remove = { table: TableName; remove: { id: string; rev: number } };
export type Proposal = Put | Remove;

/** One thing a person does: everything in it is kept, or nothing. */
export interface Act {
  action: string;
  /** As the history and Undo show it: "Edit S-18D". */
  title: string;
  proposals: Proposal[];
  /** Default true. */
  undoable?: boolean;
  /** Whoever makes the change has made a snapshot before it. Default false. */
  snapshotMade?: boolean;
}

/** What is kept now differs from what the change was made from. Both versions, for the person to choose. */
export interface Conflict {
  table: TableName;
  id: string;
  mine: AnyRecord | null;
  kept: AnyRecord | null;
}

/** Thrown by `commit`, `undo` and `redo`; nothing was written. */
export class ConflictError extends Error {
  override readonly name = 'ConflictError';
  readonly conflicts: Conflict[];
  constructor(conflicts: Conflict[]) {
    super(conflicts.length === 1 ? 'One record was changed meanwhile' : `${conflicts.length} records were changed`);
    this.conflicts = conflicts;
  }
}

/** Thrown where a change did not reach the journal and the database; `reason` is what NOT SAVED says. */
export class NotSavedError extends Error {
  override readonly name = 'NotSavedError';
  /** It was on its way to the journal: the next opening tells whether it came there. */
  readonly inDoubt: boolean;
  constructor(reason: string, { inDoubt = false, ...options }: ErrorOptions & { inDoubt?: boolean } = {}) {
    super(reason, options);
    this.inDoubt = inDoubt;
  }
}

/** Thrown where a person stopped a change; nothing was written. */
export class StoppedError extends Error {
  override readonly name = 'StoppedError';
}

/** For a change of many records: how far it has come, and the way to stop it. */
export interface Watched {
  /** Heeded as long as nothing is written; from then on the change is kept whole. */
  signal?: AbortSignal;
  onProgress?: (progress: KeepingProgress) => void;
}

export interface KeepingProgress {
  /** 0 to 1. */
  share: number;
  /** False from the moment at which it is written. */
  canStop: boolean;
}

export interface TableState<R> {
  /** False until the first rows are here. */
  ready: boolean;
  /** A new map for each change; never edited in place. */
  rows: ReadonlyMap<string, R>;
  /** What kept it from being read. */
  fault: string | null;
}

export interface LiveTable<R> {
  state(): TableState<R>;
  /** Read on the first subscription, kept current until the page goes. */
  subscribe(listener: () => void): () => void;
  /** Sees the records a piece at a time while the table is read: what takes long is done while the database is at work. */
  whileRead(look: (rows: readonly R[]) => void): () => void;
}

export type SaveState =
  | { kind: 'nothing' }
  | { kind: 'saving' }
  | { kind: 'saved'; at: Date }
  | { kind: 'not-saved'; reason: string }
  /** Another window writes. */
  | { kind: 'elsewhere'; reason: string };

export interface HistoryState {
  /** What Undo would undo and Redo would do again. */
  undo: EntryHead | null;
  redo: EntryHead | null;
  /** Newest first. */
  recent: readonly EntryHead[];
}

/** One change of one record: who made it, when, and what the record was before and after; null where it was not kept. */
export interface RecordChange
  extends Pick<JournalEntry, 'seq' | 'utc' | 'tzOffset' | 'user' | 'action'>, Pick<Change, 'before' | 'after'> {
  title: string;
}

/** The last entry of the journal. */
export interface JournalHead {
  /** 0 for an empty journal. */
  seq: number;
  hash: string;
}

/** What a look through the whole journal found. */
export interface JournalVerified {
  /** The last entry that is whole and in its place. */
  head: JournalHead;
  fault: { seq: number; reason: string } | null;
}

/** Why the work is not shown. Each is a page of its own, before any screen. */
export type Hindrance =
  /** The working copy is missing, emptied, ahead, or not what the journal says; `found` is null where it does not answer. */
  | ({ kind: 'copy-differs'; reason: string; journal: Tally; found: Tally | null } & Beside)
  /** It went from under an open window: what it holds is not known before both are compared again. */
  | { kind: 'copy-lost'; reason: string }
  | ({ kind: 'journal-damaged'; damage: JournalDamage; journal: Tally; found: Tally | null } & Beside)
  /** The journal is empty or behind while the working copy holds records. */
  | ({ kind: 'journal-missing'; journal: Tally; found: Tally } & Beside)
  /** The two agree, and a snapshot goes further than both. */
  | { kind: 'snapshot-further'; journal: Tally; further: FurtherSnapshots }
  | { kind: 'newer-version'; kept: number; known: number }
  /** Of an earlier version, and no new one could be built of it. Nothing was changed. */
  | { kind: 'older-copy'; kept: number; known: number; reason: string }
  /** A newer window has changed the database under this one. */
  | { kind: 'reload' }
  | { kind: 'no-answer'; call: string; afterS: number }
  | { kind: 'no-host'; reason: string };

/** What else the host found as it opened the journal. */
export type Beside = Partial<Pick<JournalState, 'tail' | 'further'>>;

export interface Tally {
  seq: number;
  counts: Counts;
}

export type OpeningState =
  | { kind: 'opening'; doing: string }
  | { kind: 'ready'; notice: string | null }
  /** `failed`: what was tried since, and why it was not done. */
  | { kind: 'hindered'; hindrance: Hindrance; failed?: string }
  | { kind: 'recovering'; done: number; of: number };

export interface Store {
  opening(): OpeningState;
  subscribeOpening(listener: () => void): () => void;
  /** Compares journal and database; only then is it ready. Called once by the page, and again to try again. */
  open(): Promise<void>;
  /** The same, where a snapshot goes further: what is here is shown all the same, until the page is loaded again. */
  openAsItIs(): Promise<void>;
  /** A person says that snapshots may go further than the journal; then opens. */
  goOnWithout(): Promise<void>;
  /** Builds a new working copy from the journal; the old one stays where it is. */
  rebuildFromJournal(): Promise<void>;
  /** Begins a new journal with what the working copy holds; the old files are set aside. */
  keepWorkingCopy(): Promise<void>;
  /** Everything that can still be read, of journal and working copy, as one JSON text. */
  exportAll(): Promise<string>;

  table<T extends TableName>(name: T): LiveTable<RecordOf<T>>;
  /** Resolves once the change is on the disk in both forms. */
  commit(act: Act, watched?: Watched): Promise<{ seq: number }>;
  undo(): Promise<EntryHead>;
  redo(): Promise<EntryHead>;
  history(): HistoryState;
  subscribeHistory(listener: () => void): () => void;
  /** Every change of one record, the newest first; the whole journal is read for it. */
  changesOf(table: TableName, id: string): Promise<RecordChange[]>;
  /** The journal's last entry by number and hash, as printed pages name it. */
  journalHead(): Promise<JournalHead>;
  /** Reads the whole journal again, from its first entry. */
  verifyJournal(): Promise<JournalVerified>;

  /** Every record of every table as the working copy has it now. */
  readAll(): Promise<Map<TableName, Map<string, AnyRecord>>>;

  saving(): SaveState;
  subscribeSaving(listener: () => void): () => void;
  /** Tries again what could not be saved. */
  saveAgain(): void;
  /** Makes this window the one that writes; the other one learns that it is not any more. */
  writeHere(): Promise<void>;
  /** The same where no other window has the right; else nothing. */
  writeIfFree(): Promise<void>;
  /** A key for a new record. */
  newId(): string;
}
