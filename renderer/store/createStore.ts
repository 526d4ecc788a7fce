/** The store of one window: journal and working copy together, as the screens see them. */
import type { JournalHost, SnapshotHost } from '../../shared-types/host.ts';
import type { EntryHead, JournalState, Lease } from '../../shared-types/journal.ts';
import { RefusedError } from '../engine/errors.ts';
import { PartedError } from './copy/applyEntries.ts';
import type { Deed } from './writing/deeds.ts';
import { perform } from './writing/deeds.ts';
import type { Desk } from './writing/desk.ts';
import { bringUp, hearChange, readHeads, settleArrivals } from './writing/desk.ts';
import { exportAll } from './recovery/exportAll.ts';
import { changesOf } from './writing/changesOf.ts';
import { createFailedDeeds } from './writing/failedDeeds.ts';
import { historyOf, noHistory } from './writing/history.ts';
import { journalHead } from './writing/journalHead.ts';
import { verifyJournal } from './writing/verifyJournal.ts';
import { ask, InDoubtError } from './writing/hostCalls.ts';
import type { ChangedKeys } from './copy/liveTables.ts';
import { changedKeys, createLiveTables } from './copy/liveTables.ts';
import { budget } from './noAnswer.ts';
import { baseOf } from './copy/databaseNames.ts';
import { hindranceOf, openKept } from './opening/opening.ts';
import type { Opened } from './opening/opening.ts';
import { otherWindows } from './writing/otherWindows.ts';
import type { OtherWindows } from './writing/otherWindows.ts';
import { openedAgain, readyNotice } from './opening/readyNotice.ts';
import { seldom } from './opening/seldom.ts';
import { recovery } from './recovery/recovery.ts';
import { askForLease, askPatiently, ElsewhereError, elsewhereReason } from './writing/rightToWrite.ts';
import { createSaveLine } from './writing/saveLine.ts';
import { ConflictError, NotSavedError, StoppedError } from './store.ts';
import type { Hindrance, HistoryState, OpeningState, Store } from './store.ts';
import { readAll } from './copy/readAll.ts';
import { createTopic } from './topic.ts';
import { turnAbout } from './writing/turnAbout.ts';
import { whyNotSaved } from './writing/whyNotSaved.ts';
import { snapshotFirst } from './writing/snapshotFirst.ts';
import { stepOf } from './writing/watched.ts';
import type { Step } from './writing/watched.ts';
import { wishesOf } from './writing/wishes.ts';
import type { ClosedBecause } from './copy/workingCopy.ts';
import { WorkingCopy } from './copy/workingCopy.ts';

export interface StoreOptions {
  journal: JournalHost;
  /** Makes a snapshot before what is large or takes much away; absent: none is made. */
  snapshots?: Pick<SnapshotHost, 'make' | 'meant'>;
  now?: () => Date;
  makeCopy?: (name: string) => WorkingCopy;
  /** `startMs`: for what is compared before the page is there. `callMs`: from asking for a change to NOT SAVED. */
  limits?: { startMs: number; callMs: number };
}

/** The page is there within 10 s, and a change that takes longer is not saved. */
const limitsOfProgram = { startMs: 8000, callMs: 10_000 };

/** A store that can be left, as a window is. */
export interface WindowStore extends Store {
  close(): void;
}

export function createStore(options: StoreOptions): WindowStore {
  const { journal } = options;
  const now = options.now ?? ((): Date => new Date());
  const limits = options.limits ?? limitsOfProgram;
  const opening = createTopic<OpeningState>({ kind: 'opening', doing: 'Starting' });
  const history = createTopic<HistoryState>(noHistory);
  const saves = createSaveLine(now);
  const failures = createFailedDeeds(saves);
  const tables = createLiveTables();
  let desk: Desk | null = null;
  /** What the last opening found, for recovery. */
  let found: { state: JournalState | null; copy: string | null } = { state: null, copy: null };
  const compareSoon = seldom();
  let asItIs = false;
  let channel: { base: string; windows: OtherWindows } | null = null;
  /** Each opening; what an older one still finds is not looked at. */
  let openings = 0;
  let line: Promise<unknown> = Promise.resolve();
  /** What other windows say is looked into in the order in which it came. */
  let hints: Promise<unknown> = Promise.resolve();

  /** One after the other: nothing of this window's writes overlaps. */
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const done = line.then(work);
    line = done.catch(() => undefined);
    return done;
  };

  const makeCopy = (name: string): WorkingCopy => {
    const copy = options.makeCopy?.(name) ?? new WorkingCopy(name);
    copy.onLost = (because) => lost(copy, because);
    return copy;
  };

  const lost = (copy: WorkingCopy, because: ClosedBecause): void => {
    if (desk?.copy !== copy) return;
    if (because === 'upgraded-elsewhere') hinder({ kind: 'reload' }, 'a newer window has changed the working copy');
    else stopAsLost('the working copy was closed under this window');
  };

  /** What the two hold now is not known before they are compared: that is done by itself, but not again and again. */
  const stopAsLost = (reason: string): void => {
    hinder({ kind: 'copy-lost', reason: `${reason.charAt(0).toUpperCase()}${reason.slice(1)}.` }, reason);
    const mine = openings;
    compareSoon(() => {
      if (mine === openings) void open(`${openedAgain} Before that, ${reason}.`);
    });
  };

  /** From here on nothing is written until the store is opened again. */
  const hinder = (hindrance: Hindrance, reason: string): void => {
    leaveDesk(reason);
    saves.stopped(reason);
    tables.fail(reason);
    opening.set({ kind: 'hindered', hindrance });
  };

  const leaveDesk = (reason: string): void => {
    const left = desk;
    desk = null;
    if (left === null) return;
    left.stopped = reason;
    left.copy.shut();
    left.lease?.end();
  };

  const onLeaseLost = (lease: Lease, reason: string): void => {
    if (desk?.lease !== lease) return;
    desk.lease = null;
    saves.elsewhere(reason);
  };
  const takeLease = (takeOver: boolean, limitMs: number): Promise<Lease | null> =>
    askForLease(journal, takeOver, limitMs, onLeaseLost);

  /** The right to write may come back to a window after others had it: what it has in hand is looked at again. */
  const startWriting = async (at: Desk, lease: Lease, limitMs: () => number): Promise<void> => {
    const state = await ask(() => journal.open(), limitMs(), 'the journal');
    if (state.database !== at.copy.name) {
      lease.end();
      hinder({ kind: 'reload' }, 'the working copy is another one now');
      throw new NotSavedError('the working copy is another one now');
    }
    at.lease = lease;
    at.doubtful = true;
    saves.elsewhere(null);
  };

  const mustWrite = async (at: Desk, limitMs: () => number): Promise<string> => {
    if (at.stopped !== null) throw new NotSavedError(at.stopped);
    if (at.lease !== null) return at.lease.id;
    const lease = await takeLease(false, limitMs());
    if (lease === null) {
      saves.elsewhere(elsewhereReason);
      throw new ElsewhereError(elsewhereReason);
    }
    await startWriting(at, lease, limitMs);
    return lease.id;
  };

  const tuneTo = (base: string): OtherWindows => {
    if (channel?.base === base) return channel.windows;
    channel?.windows.close();
    const windows = otherWindows(base, { onChanged: heard, onMoved });
    channel = { base, windows };
    return windows;
  };
  /** Whoever still has the old one open learns of it. */
  const tellMoved = (name: string): void => tuneTo(baseOf(name)).moved(name);
  const heard = (seq: number, keys: ChangedKeys): void => {
    const at = desk;
    if (at === null) return;
    hints = hints
      .then(() => hearChange(at, seq, keys, tables))
      .then((news) => {
        if (news) void inTurn(() => readHeads(at, () => limits.callMs)).catch(() => (at.doubtful = true));
      })
      .catch(() => (at.doubtful = true));
  };
  const onMoved = (database: string): void => {
    if (desk !== null && desk.copy.name !== database) hinder({ kind: 'reload' }, 'the working copy is another one now');
  };

  const sitDown = (opened: Opened & { kind: 'opened' }, lease: Lease | null, said: string | null): void => {
    const { copy, state } = opened;
    const windows = tuneTo(baseOf(copy.name));
    const at: Desk = {
      ...{ journal, copy, lease, seen: state.seq, heard: state.seq, doubtful: false, stopped: null },
      heads: [...state.recent],
      tookHeads(heads) {
        for (const head of heads) {
          at.heads.push(head);
          at.seen = head.seq;
          failures.settle(head.key);
        }
        history.set(historyOf(at.heads));
      },
      took(entries) {
        at.tookHeads(entries.map(({ head }) => head));
        at.heard = Math.max(at.heard, at.seen);
        const changes = entries.flatMap((entry) => entry.changes);
        tables.take(changes);
        // They read the tables, which may be taking it in yet; where that fails, they notice by the sequence.
        const { seen } = at;
        const keys = changedKeys(changes);
        at.copy.arrived().then(
          () => windows.changed(seen, keys),
          () => undefined,
        );
      },
    };
    desk = at;
    saves.stopped(null);
    saves.elsewhere(lease === null ? elsewhereReason : null);
    history.set(historyOf(at.heads));
    tables.attach(copy);
    opening.set({ kind: 'ready', notice: readyNotice(state, opened, said) });
  };

  const open = async (said: string | null = null): Promise<void> => {
    openings += 1;
    const mine = openings;
    leaveDesk('the working copy is being opened again');
    const limitMs = budget(limits.startMs, 0.2);
    const doing = (what: string): void => {
      if (mine === openings) opening.set({ kind: 'opening', doing: what });
    };
    let copy: WorkingCopy | null = null;
    let lease: Lease | null = null;
    try {
      const opened = await openKept({
        ...{ journal, makeCopy, limitMs, asItIs, doing, callMs: limits.callMs },
        takeLease: () => takeLease(false, limits.callMs),
        moved: tellMoved,
      });
      if (opened.kind === 'opened') copy = opened.copy;
      if (mine === openings && opened.kind === 'opened') lease = await askPatiently(() => takeLease(false, limitMs()));
      if (mine !== openings) {
        copy?.shut();
        lease?.end();
        return;
      }
      found = { state: opened.state, copy: opened.kind === 'opened' ? opened.copy.name : opened.copy };
      if (opened.kind === 'hindered') hinder(opened.hindrance, 'what is kept here cannot be shown');
      else if (opened.copy.isOpen()) sitDown(opened, lease, said);
      else stopAsLost('the working copy was closed while it was opened');
    } catch (error) {
      copy?.shut();
      lease?.end();
      if (mine === openings) hinder(hindranceOf(error), whyNotSaved(error));
    }
  };

  const performed = async (deed: Deed, step: Step): Promise<number> => {
    const at = desk;
    if (at === null) throw new NotSavedError('the store is not open');
    await settleArrivals(at);
    // Fifty thousand records take longer than one.
    const limitMs = budget(limits.callMs + deed.wishes.length);
    const isRepeated = failures.wasKeptAfterAll;
    const mayWrite = (limit: () => number): Promise<string> => mustWrite(at, limit);
    const seq = await perform(deed, { desk: at, mustWrite: mayWrite, limitMs, isRepeated, step });
    failures.kept(deed);
    return seq;
  };

  /** Runs a deed and says how it went, to the save line and to the caller alike. */
  const run = (
    makeDeed: (limitMs: () => number) => Promise<Deed>,
    step: Step = () => undefined,
  ): Promise<{ deed: Deed; seq: number }> => {
    saves.begun();
    return inTurn(async () => {
      let deed: Deed | null = null;
      let kept = false;
      try {
        deed = await makeDeed(budget(limits.callMs));
        const seq = await performed(deed, step);
        kept = true;
        return { deed, seq };
      } catch (error) {
        throw notKept(deed, error);
      } finally {
        saves.ended(kept);
      }
    });
  };

  const notKept = (deed: Deed | null, thrown: unknown): unknown => {
    const inDoubt = thrown instanceof InDoubtError;
    const error = inDoubt ? thrown.cause : thrown;
    const isTold = [ConflictError, RefusedError, ElsewhereError, StoppedError].some((kind) => error instanceof kind);
    if (isTold) return error;
    const reason = whyNotSaved(error);
    if (error instanceof PartedError) stopAsLost(reason);
    else if (deed !== null && desk !== null) failures.add(deed, error);
    return error instanceof NotSavedError ? error : new NotSavedError(reason, { cause: error, inDoubt });
  };

  const takeUp = (takeOver: boolean): Promise<void> =>
    inTurn(async () => {
      const at = desk;
      if (at === null) throw new NotSavedError('the store is not open');
      if (at.lease !== null) return;
      try {
        const lease = await takeLease(takeOver, limits.callMs);
        if (lease === null) throw new ElsewhereError(elsewhereReason);
        await startWriting(at, lease, () => limits.callMs);
        await bringUp(at, () => limits.callMs);
      } catch (error) {
        if (error instanceof PartedError) stopAsLost(error.message);
        throw error instanceof NotSavedError ? error : new NotSavedError(whyNotSaved(error), { cause: error });
      }
    });

  const turn = async (action: 'undo' | 'redo'): Promise<EntryHead> => {
    const { seq } = await run(async (limitMs) => {
      const at = desk;
      if (at === null) throw new NotSavedError('the store is not open');
      await mustWrite(at, limitMs);
      if (at.doubtful) await bringUp(at, limitMs);
      return await turnAbout(journal, action, history.get()[action], limitMs);
    });
    const head = desk?.heads.findLast((one) => one.seq === seq);
    if (head === undefined) throw new NotSavedError('the store was opened again meanwhile');
    return head;
  };

  const ways = recovery({
    journal,
    ...(options.snapshots === undefined ? {} : { snapshots: options.snapshots }),
    makeCopy,
    opening,
    open,
    letGo: () => leaveDesk('the working copy is being opened again'),
    limitMs: () => limits.callMs,
    takeLease: () => takeLease(false, limits.callMs),
    copyFound: () => found.copy,
    moved: tellMoved,
  });

  return {
    opening: opening.get,
    subscribeOpening: opening.subscribe,
    open: () => open(),
    openAsItIs() {
      asItIs = true;
      return open();
    },
    ...ways,
    exportAll: () => exportAll({ journal, now, limitMs: () => limits.callMs, copy: found.copy }),
    changesOf: (table, id) => changesOf(journal, { table, id }, () => limits.callMs),
    journalHead: () => journalHead(journal, desk?.seen ?? 0, () => limits.callMs),
    verifyJournal: () => verifyJournal(journal, desk?.seen ?? 0, () => limits.callMs),
    async readAll() {
      if (desk === null) throw new NotSavedError('the store is not open');
      return await readAll(desk.copy);
    },
    table: (name) => tables.table(name),
    async commit(act, watched = {}) {
      const key = crypto.randomUUID();
      const { action, title, undoable = true } = act;
      const step = stepOf(watched);
      const { seq } = await run(async () => {
        // The host makes it while the page is at the wishes; nothing is written before both are there.
        const made = options.snapshots === undefined ? null : snapshotFirst(act, options.snapshots);
        made?.catch(() => undefined);
        const wishes = await wishesOf(act, step);
        await made;
        return { key, action, title, undoable, wishes };
      }, step);
      return { seq };
    },
    undo: () => turn('undo'),
    redo: () => turn('redo'),
    history: history.get,
    subscribeHistory: history.subscribe,
    saving: saves.state,
    subscribeSaving: saves.subscribe,
    saveAgain() {
      for (const deed of failures.toTryAgain())
        run(() => Promise.resolve(deed)).catch((error: unknown) => {
          // Anything else was noted where it failed.
          if (error instanceof ConflictError || error instanceof RefusedError) failures.giveUp(deed, error);
        });
    },
    writeHere: () => takeUp(true),
    // Where it is not free, all stays as it was said.
    writeIfFree: () => takeUp(false).catch(() => undefined),
    newId: () => crypto.randomUUID(),
    close() {
      openings += 1;
      leaveDesk('this window was closed');
      channel?.windows.close();
      channel = null;
    },
  };
}
