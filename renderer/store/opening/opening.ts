/** What happens before any screen: is what is kept whole, and is it what the journal says? */
import type { JournalState } from '../../../shared-types/journal.ts';
import { emptyHash } from '../../../shared-types/journal.ts';
import { recordsVersion } from '../../../shared-types/records/index.ts';
import { compareCopy, emptyCounts, looks, totalOf } from './compareCopy.ts';
import { ask, HostError } from '../writing/hostCalls.ts';
import { NoAnswerError, within } from '../noAnswer.ts';
import { listDatabases, rawTally } from '../copy/rawDatabase.ts';
import type { ListedDatabase } from '../copy/rawDatabase.ts';
import { laidDown, takeIn, whenTakenIn } from '../copy/arrivals.ts';
import { baseOf, numberOf } from '../copy/databaseNames.ts';
import { moveOver } from './moveOver.ts';
import type { OpeningAround } from './openingAround.ts';
import { replay } from './replay.ts';
import type { Hindrance, Tally } from '../store.ts';
import { whyNotSaved } from '../writing/whyNotSaved.ts';
import type { CopyTally, MetaRow, WorkingCopy } from '../copy/workingCopy.ts';
import { allTables, knownVersion, nativeVersion, settled, tallyOf } from '../copy/workingCopy.ts';

export type Opened =
  /** `broughtUp`: from which version of the working copy a new one was built. */
  | { kind: 'opened'; copy: WorkingCopy; state: JournalState; replayed: number; broughtUp: number | null }
  /** `copy` names the database that a recovery would go by. */
  | { kind: 'hindered'; hindrance: Hindrance; state: JournalState | null; copy: string | null };

/** So long another window may have the database for itself. */
const takingInMs = 60_000;

export async function openKept(around: OpeningAround): Promise<Opened> {
  const opened = await openBoth(around);
  const { state } = opened;
  if (opened.kind === 'hindered') return { ...opened, hindrance: withBeside(opened.hindrance, state) };
  const { further } = opened.state;
  if (further === null || around.asItIs) return opened;
  opened.copy.shut();
  const { seq, counts } = opened.state;
  const hindrance: Hindrance = { kind: 'snapshot-further', journal: { seq, counts }, further };
  return { kind: 'hindered', hindrance, state, copy: opened.copy.name };
}

function withBeside(hindrance: Hindrance, state: JournalState | null): Hindrance {
  if (state === null) return hindrance;
  const { tail, further } = state;
  switch (hindrance.kind) {
    case 'copy-differs':
    case 'journal-damaged':
    case 'journal-missing':
      return { ...hindrance, tail, further };
    default:
      return hindrance;
  }
}

async function openBoth(around: OpeningAround): Promise<Opened> {
  const { journal, limitMs, doing } = around;
  doing('Reading the journal');
  const [listed, state] = await Promise.all([
    within(listDatabases(), limitMs(), 'the list of databases').catch(unreadable),
    ask(() => journal.open(), limitMs(), 'the journal').catch((error: unknown) => {
      throw error instanceof NoAnswerError ? error : new NoHostError(whyNotSaved(error));
    }),
  ]);
  const name = state.database;
  const hindered = (hindrance: Hindrance, copy = name): Opened => ({ kind: 'hindered', hindrance, state, copy });
  const tally: Tally = { seq: state.seq, counts: state.counts };
  if (listed instanceof UnreadableError) {
    const { message: reason } = listed;
    if (state.schema > recordsVersion)
      return hindered({ kind: 'newer-version', kept: state.schema, known: recordsVersion });
    if (state.damage !== null)
      return hindered({ kind: 'journal-damaged', damage: state.damage, journal: tally, found: null });
    return hindered({ kind: 'copy-differs', reason, journal: tally, found: null });
  }
  const there = listed.find((database) => database.name === name);
  const lookAt = (copy: string): Promise<Tally> => within(rawTally(copy), limitMs(), 'the working copy');

  // By what the browser says, before anything is opened: Dexie opens a newer database without a word.
  if (there !== undefined && there.version > nativeVersion(knownVersion))
    return hindered({ kind: 'newer-version', kept: there.version / nativeVersion(1), known: knownVersion });
  if (state.schema > recordsVersion)
    return hindered({ kind: 'newer-version', kept: state.schema, known: recordsVersion });

  if (state.damage !== null) {
    const found = there === undefined ? { seq: 0, counts: emptyCounts() } : await lookAt(name).catch(() => null);
    return hindered({ kind: 'journal-damaged', damage: state.damage, journal: tally, found });
  }
  if (there === undefined) {
    if (state.seq > 0) {
      const reason = `The working copy, ${name}, is not there.`;
      return hindered({ kind: 'copy-differs', reason, journal: tally, found: { seq: 0, counts: emptyCounts() } });
    }
    const left = await leftBehind(listed, baseOf(name), lookAt);
    if (left !== null) return hindered({ kind: 'journal-missing', journal: tally, found: left.tally }, left.name);
  }
  doing('Comparing the working copy with the journal');
  if (there === undefined || there.version >= nativeVersion(knownVersion))
    return await openCopy(around, name, state, hindered);
  const version = there.version / nativeVersion(1);
  const over = await moveOver(around, { name, version }, state);
  if (over.kind === 'hindered') return hindered(over.hindrance);
  const opened = await openCopy(around, over.state.database, over.state, hindered);
  return opened.kind === 'opened' ? { ...opened, broughtUp: version } : opened;
}

async function openCopy(
  { journal, makeCopy, limitMs, doing }: OpeningAround,
  name: string,
  firstState: JournalState,
  hindered: (hindrance: Hindrance) => Opened,
): Promise<Opened> {
  const copy = makeCopy(name);
  let state = firstState;
  let replayed = 0;
  const stop = (hindrance: Hindrance): Opened => {
    copy.shut();
    return hindered(hindrance);
  };
  try {
    await within(settled(copy.open()), limitMs(), 'the working copy (opening it)');
    // A newer window may have come in between.
    const native = copy.backendDB().version;
    if (native > nativeVersion(knownVersion))
      return stop({ kind: 'newer-version', kept: native / nativeVersion(1), known: knownVersion });
    // Another window may be at it: of fifty thousand records it has the database for itself for seconds.
    await within(whenTakenIn(name), takingInMs, 'another window, which is taking in many records');
    // What was laid down before a window went is taken in; many records may take longer than a few.
    const records = await within(laidDown(copy), limitMs(), 'the working copy (opening it)');
    await within(takeIn(copy), limitMs() + records, 'the working copy (opening it)');
    for (let look = 1; ; look += 1) {
      const found = await within(tallyOf(copy), limitMs(), 'the working copy (counting it)');
      const journalTally: Tally = { seq: state.seq, counts: state.counts };
      let verdict = compareCopy(state, found);
      if (verdict.kind === 'fresh') {
        await within(beginCopy(copy), limitMs(), 'the working copy');
        continue;
      }
      if (verdict.kind === 'behind') {
        doing('Bringing the working copy up to the journal');
        const seq = metaOf(found)?.seq ?? 0;
        verdict = await replay({ journal, copy, limitMs }, state, found as CopyTally & { meta: MetaRow });
        if (verdict.kind === 'same' && look < looks) {
          replayed += state.seq - seq;
          continue;
        }
      }
      if (verdict.kind === 'same') return { kind: 'opened', copy, state, replayed, broughtUp: null };
      if (verdict.kind === 'differs')
        return stop({ kind: 'copy-differs', reason: verdict.reason, journal: journalTally, found: tallyFrom(found) });
      if (look >= looks) return stop({ kind: 'journal-missing', journal: journalTally, found: tallyFrom(found) });
      // The journal was read before the copy was counted; another window may have written in between.
      state = await ask(() => journal.open(), limitMs(), 'the journal');
    }
  } catch (error) {
    if (error instanceof NoAnswerError || error instanceof HostError) {
      copy.shut();
      throw error;
    }
    return stop({
      kind: 'copy-differs',
      reason: cannotBeRead(error),
      journal: { seq: state.seq, counts: state.counts },
      found: null,
    });
  }
}

/** The browser does not even list its databases: so it answers, once, where it finds its own files damaged. */
class UnreadableError extends Error {
  override readonly name = 'UnreadableError';
}

function unreadable(error: unknown): UnreadableError {
  if (error instanceof NoAnswerError) throw error;
  return new UnreadableError(cannotBeRead(error));
}

function cannotBeRead(error: unknown): string {
  const why = whyNotSaved(error);
  return why.startsWith('the working copy') ? `T${why.slice(1)}.` : `The working copy cannot be read: ${why}.`;
}

/** Thrown where the journal cannot be had at all. */
class NoHostError extends Error {
  override readonly name = 'NoHostError';
}

export function hindranceOf(error: unknown): Hindrance {
  if (error instanceof NoAnswerError) return { kind: 'no-answer', call: error.call, afterS: error.afterS };
  return { kind: 'no-host', reason: error instanceof NoHostError ? error.message : whyNotSaved(error) };
}

function metaOf({ meta }: CopyTally): MetaRow | null {
  return meta === 'damaged' ? null : meta;
}

function tallyFrom(found: CopyTally): Tally {
  return { seq: metaOf(found)?.seq ?? 0, counts: found.counts };
}

/** A working copy of nothing says so; one that says nothing has lost something. */
export function beginCopy(copy: WorkingCopy): Promise<void> {
  return settled(
    copy.transaction('rw', allTables, async () => {
      if ((await copy.meta().get('head')) === undefined)
        await copy.meta().put({ key: 'head', seq: 0, hash: emptyHash });
    }),
  );
}

/** With an empty journal: the newest of the profile's other databases that holds anything. */
async function leftBehind(
  listed: readonly ListedDatabase[],
  base: string,
  lookAt: (name: string) => Promise<Tally>,
): Promise<{ name: string; tally: Tally } | null> {
  const numbered = listed
    .flatMap(({ name }) => (baseOf(name) === base && name !== base ? [{ name, number: numberOf(name) }] : []))
    .toSorted((a, b) => b.number - a.number);
  for (const { name } of numbered) {
    const tally = await lookAt(name).catch(() => null);
    if (tally !== null && totalOf(tally.counts) > 0) return { name, tally };
  }
  return null;
}
