/** A new working copy from the journal, beside the old one: filled, read back, compared, and only then pointed at. */
import type { JournalHost } from '../../../shared-types/host.ts';
import type { JournalState } from '../../../shared-types/journal.ts';
import { emptyHash } from '../../../shared-types/journal.ts';
import type { AnyRecord, TableName } from '../../../shared-types/records/index.ts';
import { tableNames } from '../../../shared-types/records/index.ts';
import { broughtUp } from '../../../shared-types/records/versions.ts';
import { compareCounts, emptyCounts, totalOf } from '../opening/compareCopy.ts';
import { digestOfRecords, digestsOf } from '../copy/digest.ts';
import { ask, entriesFrom } from '../writing/hostCalls.ts';
import { inPieces } from '../inPieces.ts';
import { within } from '../noAnswer.ts';
import { baseOf, numberOf } from '../copy/databaseNames.ts';
import { listDatabases } from '../copy/rawDatabase.ts';
import { NotSavedError } from '../store.ts';
import { settled } from '../copy/workingCopy.ts';
import type { WorkingCopy } from '../copy/workingCopy.ts';

export interface RebuildAround {
  journal: JournalHost;
  lease: string;
  makeCopy: (name: string) => WorkingCopy;
  limitMs: () => number;
  progress: (done: number, of: number) => void;
}

type Folded = Map<TableName, Map<string, AnyRecord>>;

const pieceSize = 400;

/** @returns the new database's name */
export async function rebuild(around: RebuildAround): Promise<string> {
  const { journal, lease, makeCopy, limitMs, progress } = around;
  let state = await ask(() => journal.open(), limitMs(), 'the journal');
  if (state.damage !== null) {
    // What stands behind the damage is set aside with the rest; the intact entries are what there is to build from.
    const keepThrough = state.damage.intactSeq;
    ({ state } = await ask(() => journal.beginAgain({ lease, keepThrough }), limitMs(), 'the journal'));
  }
  // Each entry is read once; each record is written once and read back once.
  const total = state.seq + 2 * totalOf(state.counts);
  const folded = await fold(state, around, (done) => progress(done, total));
  const name = await freshName(state.database, limitMs);
  const copy = makeCopy(name);
  try {
    await within(settled(copy.open()), limitMs(), 'the new working copy (making it)');
    await fill(copy, folded, limitMs, (done) => progress(state.seq + done, total));
    const head = { key: 'head' as const, seq: state.seq, hash: state.hash };
    await within(settled(copy.meta().put(head)), limitMs(), 'the new working copy (writing it)');
    await mustEqual(copy, folded);
    progress(total, total);
    await ask(() => journal.setDatabase({ lease, name }), limitMs(), 'the journal');
  } finally {
    copy.shut();
  }
  return name;
}

/** What all entries come to. The host has verified them; here only their order and the numbers are held against it. */
async function fold(
  state: JournalState,
  { journal, limitMs }: RebuildAround,
  progress: (done: number) => void,
): Promise<Folded> {
  const folded: Folded = new Map(tableNames.map((name) => [name, new Map()]));
  let last = { seq: 0, hash: emptyHash };
  for await (const entries of entriesFrom(journal, 1, limitMs)) {
    for (const { seq, prevHash, hash, payload, schema } of entries) {
      if (seq !== last.seq + 1 || prevHash !== last.hash)
        throw new NotSavedError(`entry ${seq} of the journal does not follow upon entry ${last.seq}`);
      last = { seq, hash };
      for (const { table, id, after } of payload.changes) {
        if (after === null) folded.get(table)?.delete(id);
        else folded.get(table)?.set(id, broughtUp(table, after, schema) as AnyRecord);
      }
    }
    progress(last.seq);
  }
  const counts = emptyCounts();
  for (const [name, records] of folded) counts[name] = records.size;
  if (last.seq !== state.seq || last.hash !== state.hash || compareCounts(state.counts, counts).kind !== 'same')
    throw new NotSavedError('the journal does not hold what it says; nothing was changed');
  return folded;
}

async function freshName(now: string, limitMs: () => number): Promise<string> {
  const base = baseOf(now);
  const listed = await within(listDatabases(), limitMs(), 'the list of databases');
  const taken = [now, ...listed.map(({ name }) => name)].filter((name) => baseOf(name) === base).map(numberOf);
  return `${base}-${Math.max(0, ...taken) + 1}`;
}

async function fill(
  copy: WorkingCopy,
  folded: Folded,
  limitMs: () => number,
  progress: (done: number) => void,
): Promise<void> {
  let done = 0;
  for (const [name, records] of folded) {
    for (const piece of inPieces([...records.values()], pieceSize)) {
      await within(settled(copy.table(name).bulkPut(piece)), limitMs(), 'the new working copy (writing it)');
      done += piece.length;
      progress(done);
    }
  }
}

/** Reads it back and holds it, table by table, against what the journal comes to. */
async function mustEqual(copy: WorkingCopy, folded: Folded): Promise<void> {
  const kept = await digestsOf(copy);
  for (const [name, records] of folded) {
    const expected = await digestOfRecords(records.values());
    if (kept[name].count !== expected.count || kept[name].whole !== expected.whole)
      throw new NotSavedError(
        `the new working copy did not take ${name} as the journal has them: ${kept[name].count} of ${expected.count}`,
      );
  }
}
