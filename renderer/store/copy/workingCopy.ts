/**
 * The working copy: what the screens read, in the browser's database. The truth is the host's journal; `head` says up to
 * which of its entries this copy has come.
 */
import Dexie from 'dexie';
import type { Table } from 'dexie';
import type { Change } from '../../../shared-types/journal.ts';
import type { Counts, RecordOf, TableName } from '../../../shared-types/records/index.ts';
import { tableNames } from '../../../shared-types/records/index.ts';

export interface MetaRow {
  key: 'head';
  seq: number;
  hash: string;
}

/** Some of an entry's records on their way into their tables. */
export interface ArrivalBlock {
  /** Place among the blocks, from 0, and how many there are. */
  at: number;
  of: number;
  seq: number;
  hash: string;
  prevHash: string;
  changes: readonly Change[];
}

/** The newest version of the database that this program knows. */
export const knownVersion = 6;

/** Dexie counts a version as ten of the browser's. */
export const nativeVersion = (version: number): number => version * 10;

/**
 * Every version block stays for ever, as it was shipped: it says what a database of that version holds. A change of the tables is a new
 * block below the last. No database comes up through them: of an earlier one a new one is built beside it (`opening/moveOver.ts`).
 */
function declareVersions(copy: Dexie): void {
  copy.version(1).stores({
    shelves: 'id',
    items: 'id, [shelf+code], code',
    sites: 'id',
    interfaces: 'id, [site+code], fastener',
    tasks: 'id, site, *shelves',
    outings: 'id, [task+code], *bags',
    steps: 'id, [task+code], interface',
    results: 'id',
    preferences: 'id',
    meta: 'key',
  });
  copy.version(2).stores({
    notes: 'id, task',
    calloutLists: 'id, task',
    callouts: 'id, list',
    asRunLists: 'id, task, callouts',
    asRuns: 'id, list',
  });
  // A step may say where its torque was taken from: one that does not is whole as it is, and no table looks anything up by it.
  copy.version(3).stores({});
  // What was learned is kept by itself; what interfaces and steps say of their own stays with them.
  copy.version(4).stores({ watchOuts: 'id' });
  // Frozen manifests and what was done with them; items by the number on their label; and many records on their way into
  // their tables, which no screen reads.
  copy.version(5).stores({
    revisions: 'id, [task+number]',
    events: 'id, [revision+no]',
    discrepancies: 'id, [task+number], revision',
    items: 'id, [shelf+code], code, tag',
    arrivals: 'at',
  });
  // Names of pockets, and in which of them a line was laid and frozen; the day that a tool found out had then; numbers of labels that
  // were given anew to what came from another copy. What has none of them is whole as it is.
  copy.version(6).stores({});
}

export type ClosedBecause = 'upgraded-elsewhere' | 'closed';

export class WorkingCopy extends Dexie {
  /** Told once, when the connection ended without `shut`. */
  onLost: (because: ClosedBecause) => void = () => undefined;
  private ended = false;
  private arriving: Promise<void> = Promise.resolve();

  constructor(name: string) {
    // Only strict durability reaches the disk before a write counts as done.
    super(name, { chromeTransactionDurability: 'strict', cache: 'disabled' });
    // It gathers the key of every record that is written, and tells all windows of each: seconds of the page for many records,
    // and nobody listens. Windows tell each other by `otherWindows`.
    this.unuse({ stack: 'dbcore', name: 'Observability' });
    declareVersions(this);
    this.on('versionchange', () => this.lose('upgraded-elsewhere'));
    this.on('close', () => this.lose('closed'));
  }

  records<T extends TableName>(name: T): Table<RecordOf<T>, string> {
    return this.table(name);
  }

  meta(): Table<MetaRow, string> {
    return this.table('meta');
  }

  arrivals(): Table<ArrivalBlock, number> {
    return this.table('arrivals');
  }

  /** Resolves once the tables hold all that was laid down for them; rejects where they did not take it, until it is tried again. */
  arrived(): Promise<void> {
    return this.arriving;
  }

  /** What is laid down is taken in by this; whatever reads the tables waits for it. */
  takes(arriving: Promise<void>): void {
    this.arriving = arriving;
    arriving.catch(() => undefined);
  }

  /** Dexie would open again by itself what the browser closed, and might find another database there. */
  override open(): ReturnType<Dexie['open']> {
    return this.ended ? Dexie.Promise.reject(new Dexie.DatabaseClosedError()) : super.open();
  }

  /** Closes it because this window wants so. */
  shut(): void {
    this.ended = true;
    this.close({ disableAutoOpen: true });
  }

  private lose(because: ClosedBecause): void {
    if (this.ended) return;
    this.ended = true;
    this.close({ disableAutoOpen: true });
    // Dexie's own closing, which called this, lets it open again as its last act; this comes after.
    queueMicrotask(() => this.close({ disableAutoOpen: true }));
    this.onLost(because);
  }
}

export const allTables: readonly string[] = [...tableNames, 'meta'];

export interface CopyTally {
  /** Null where the copy does not say, `damaged` where what it says cannot be. */
  meta: MetaRow | null | 'damaged';
  counts: Counts;
}

/** Head and number of records, at one moment. */
export function tallyOf(copy: WorkingCopy): Promise<CopyTally> {
  return settled(
    copy.transaction('r', allTables, async () => {
      const meta = readMeta(await copy.meta().get('head'));
      const counted = await Promise.all(
        tableNames.map(async (name) => [name, await copy.table(name).count()] as const),
      );
      return { meta, counts: Object.fromEntries(counted) as Counts };
    }),
  );
}

/** What a copy says of itself, as it lies in its table. */
export function readMeta(row: unknown): CopyTally['meta'] {
  if (row === undefined || row === null) return null;
  const { seq, hash } = row as Partial<MetaRow>;
  const whole = Number.isSafeInteger(seq) && Number(seq) >= 0 && /^[0-9a-f]{64}$/.test(hash ?? '');
  return whole ? (row as MetaRow) : 'damaged';
}

/** Dexie's promises as the language's own. */
export function settled<T>(promise: PromiseLike<T>): Promise<T> {
  return new Promise((resolve, reject) => promise.then(resolve, reject));
}
