/**
 * A journal without a disk, for tests of what stands on one: real sequence check, real chain, one lease between all
 * windows that ask `window()` for their host, and faults that a test switches on.
 */
import type { Refusal, RefusalCode } from '../../shared-types/errors.ts';
import type { JournalHost } from '../../shared-types/host.ts';
import {
  appendRequestSchema,
  emptyHash,
  recentMost,
  type Appended,
  type AppendRequest,
  type EntryHead,
  type JournalDamage,
  type JournalEntry,
  type JournalState,
} from '../../shared-types/journal.ts';
import { recordsVersion, tableNames, type Counts } from '../../shared-types/records/index.ts';
import { RefusedError } from '../../renderer/engine/errors.ts';
import { canonicalJson } from '../../shared-types/canonicalJson.ts';
import { sha256 } from '../../renderer/store/sha256.ts';

export type JournalCall = 'open' | 'append' | 'read' | 'setDatabase' | 'beginAgain' | 'lease';

/** What a test may break, at any time, for every window of the journal. */
export interface JournalFaults {
  /** The next so many appends are refused with this code; nothing is written. */
  refuseAppends: { code: RefusalCode; times: number } | null;
  /** The next so many appends are written, and their answers lost. */
  loseAnswers: number;
  /** Calls of these names never answer. */
  hang: Set<JournalCall>;
  /** Nobody is there: every call is refused with `not-available`. */
  gone: boolean;
  /** Every window gets a lease and every lease is good: what a broken lease would let through. */
  anyoneWrites: boolean;
  damage: JournalDamage | null;
  tail: JournalState['tail'];
  further: JournalState['further'];
  /** Newest version of records that the journal says it holds. */
  schema: number;
  /** Time each call takes. */
  delayMs: number;
}

export interface MemoryJournal {
  /** The host's side as one window sees it. */
  window(): JournalHost;
  /** The lines on the disk. A test may cut, edit or swap them. */
  entries: JournalEntry[];
  faults: JournalFaults;
  /** Sets of lines that `beginAgain` put aside. */
  setAside: JournalEntry[][];
  database(): string;
  /** How often each call was made. */
  calls: Record<JournalCall, number>;
  /** The lease in force, as a process that died would leave it free: the holder learns of it. */
  endLease(reason: string): void;
}

export interface MemoryJournalOptions {
  /** Default: a name no other test has. */
  database?: string;
  now?: () => Date;
  /** How many entries one `read` gives. */
  pageSize?: number;
}

const refused = (code: RefusalCode, message: string, more: Partial<Refusal> = {}): RefusedError =>
  new RefusedError({ code, message, ...more });

export function memoryJournal(options: MemoryJournalOptions = {}): MemoryJournal {
  const now = options.now ?? ((): Date => new Date());
  const pageSize = options.pageSize ?? 500;
  const deviceId = crypto.randomUUID().replaceAll('-', '');
  const entries: JournalEntry[] = [];
  const setAside: JournalEntry[][] = [];
  const calls: Record<JournalCall, number> = { open: 0, append: 0, read: 0, setDatabase: 0, beginAgain: 0, lease: 0 };
  const faults: JournalFaults = {
    refuseAppends: null,
    loseAnswers: 0,
    hang: new Set(),
    gone: false,
    anyoneWrites: false,
    damage: null,
    tail: null,
    further: null,
    schema: recordsVersion,
    delayMs: 0,
  };
  let database = options.database ?? `bagwright-${crypto.randomUUID().slice(0, 8)}-1`;
  let holder: { id: string; lost: (reason: string) => void } | null = null;
  /** One append after the other, as one file takes them. */
  let line: Promise<unknown> = Promise.resolve();

  const answer = async <T>(call: JournalCall, work: () => T | Promise<T>): Promise<T> => {
    calls[call] += 1;
    if (faults.hang.has(call)) return await new Promise<never>(() => undefined);
    // What a host answers is never there in the same turn.
    await new Promise<void>((resolve) => (faults.delayMs > 0 ? setTimeout(resolve, faults.delayMs) : resolve()));
    if (faults.gone) throw refused('not-available', 'The program behind this window does not answer.');
    return structuredClone(await work());
  };
  const mustWrite = (lease: string): void => {
    if (!faults.anyoneWrites && holder?.id !== lease)
      throw refused('not-writer', 'Another window has the right to write.');
  };

  const appendNow = async (request: AppendRequest): Promise<Appended> => {
    const { lease, seq, user, action, payload } = appendRequestSchema.parse(request);
    const earlier = entries.find((entry) => entry.payload.key === payload.key);
    if (earlier !== undefined) return { seq: earlier.seq, hash: earlier.hash, utc: earlier.utc };
    mustWrite(lease);
    if (faults.refuseAppends !== null && faults.refuseAppends.times > 0) {
      faults.refuseAppends.times -= 1;
      throw refused(faults.refuseAppends.code, `refused by the test (${faults.refuseAppends.code})`);
    }
    if (faults.damage !== null) throw refused('disk', 'The journal is damaged.');
    const last = entries.at(-1);
    const next = (last?.seq ?? 0) + 1;
    if (seq !== next) throw refused('behind', `The next entry is ${next}, not ${seq}.`, { value: seq });
    const at = now();
    const body = {
      seq,
      deviceId,
      utc: at.toISOString(),
      tzOffset: 0 - at.getTimezoneOffset(),
      user,
      action,
      // As a line on a disk gives it back.
      payload: JSON.parse(JSON.stringify(payload)) as typeof payload,
      schema: recordsVersion,
      prevHash: last?.hash ?? emptyHash,
    };
    const hash = await sha256(canonicalJson(body));
    entries.push({ ...body, hash });
    if (faults.loseAnswers > 0) {
      faults.loseAnswers -= 1;
      throw refused('not-available', 'The connection ended before the answer came.');
    }
    return { seq, hash, utc: body.utc };
  };

  return {
    entries,
    faults,
    setAside,
    calls,
    database: () => database,
    endLease(reason) {
      const gone = holder;
      holder = null;
      gone?.lost(reason);
    },
    window: () => ({
      open: () =>
        answer('open', () => ({
          ...stateOf(entries),
          database,
          ...pick(faults, ['schema', 'damage', 'tail', 'further']),
        })),
      append: (request) =>
        answer('append', () => {
          const done = line.then(() => appendNow(request));
          line = done.catch(() => undefined);
          return done;
        }),
      read: ({ from }) =>
        answer('read', () => {
          const page = entries.filter((entry) => entry.seq >= from).slice(0, pageSize);
          const last = page.at(-1)?.seq;
          return { entries: page, next: last === undefined || last === entries.at(-1)?.seq ? null : last + 1 };
        }),
      setDatabase: ({ lease, name }) =>
        answer('setDatabase', () => {
          mustWrite(lease);
          database = name;
        }),
      beginAgain: ({ lease, keepThrough }) =>
        answer('beginAgain', () => {
          mustWrite(lease);
          setAside.push([...entries]);
          entries.splice(0, entries.length, ...entries.filter((entry) => entry.seq <= keepThrough));
          faults.damage = null;
          return {
            state: { ...stateOf(entries), database, ...pick(faults, ['schema', 'damage', 'tail', 'further']) },
            setAside: `set-aside-${setAside.length}`,
          };
        }),
      async lease({ takeOver }, onLost) {
        const id = crypto.randomUUID().replaceAll('-', '');
        const granted = await answer('lease', () => {
          if (faults.anyoneWrites) return true;
          if (holder !== null && !takeOver) return false;
          const before = holder;
          holder = { id, lost: onLost };
          before?.lost('Another window took over saving.');
          return true;
        });
        const end = (): void => {
          if (holder?.id === id) holder = null;
        };
        return granted ? { id, end } : null;
      },
    }),
  };
}

function pick<T, K extends keyof T>(from: T, names: readonly K[]): Pick<T, K> {
  return Object.fromEntries(names.map((name) => [name, from[name]])) as Pick<T, K>;
}

function stateOf(entries: readonly JournalEntry[]): Pick<JournalState, 'seq' | 'hash' | 'counts' | 'recent'> {
  const counts = Object.fromEntries(tableNames.map((name) => [name, 0])) as Counts;
  for (const { payload } of entries)
    for (const { table, before, after } of payload.changes)
      counts[table] += (after === null ? 0 : 1) - (before === null ? 0 : 1);
  const heads = entries.map((entry, at): EntryHead => {
    const { seq, utc, tzOffset, user, action, payload } = entry;
    const { title, key, undoable, of } = payload;
    const clockWentBack = at > 0 && utc < (entries[at - 1]?.utc ?? '');
    return {
      seq,
      utc,
      tzOffset,
      user,
      action,
      title,
      key,
      undoable,
      ...(of === undefined ? {} : { of }),
      clockWentBack,
    };
  });
  const last = entries.at(-1);
  return { seq: last?.seq ?? 0, hash: last?.hash ?? emptyHash, counts, recent: heads.slice(-recentMost) };
}
