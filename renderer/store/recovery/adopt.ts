/** A new journal that begins with what the working copy holds; the old one's files are set aside by the host. */
import type { JournalHost } from '../../../shared-types/host.ts';
import type { Change } from '../../../shared-types/journal.ts';
import type { AnyRecord } from '../../../shared-types/records/index.ts';
import { recordSchemas, tableNames } from '../../../shared-types/records/index.ts';
import { broughtUp } from '../../../shared-types/records/versions.ts';
import { RefusedError } from '../../engine/errors.ts';
import { refusalFromZod } from '../../engine/json/refusalFromZod.ts';
import { ask } from '../writing/hostCalls.ts';
import { within } from '../noAnswer.ts';
import { rebuild } from './rebuild.ts';
import { takeIn } from '../copy/arrivals.ts';
import { listDatabases, rawContents } from '../copy/rawDatabase.ts';
import { withArrivals } from '../copy/withArrivals.ts';
import { nameOf } from '../recordNames.ts';
import { knownVersion, nativeVersion, settled } from '../copy/workingCopy.ts';
import type { WorkingCopy } from '../copy/workingCopy.ts';

export interface AdoptAround {
  journal: JournalHost;
  lease: string;
  makeCopy: (name: string) => WorkingCopy;
  limitMs: () => number;
  progress: (done: number, of: number) => void;
}

/** The host takes an answer of 32 MB; a character may be four bytes there. */
const pieceMost = { characters: 6_000_000, changes: 50_000 };

/**
 * @param name - the database whose records are kept
 * @returns the working copy from then on: the same; of an earlier version a new one, built from the new journal beside it
 */
export async function adopt(name: string, around: AdoptAround): Promise<string> {
  const { journal, lease, makeCopy, limitMs, progress } = around;
  const version = await versionOf(name);
  const isOlder = version < knownVersion;
  if (!isOlder) await takeInArrivals(name, makeCopy, limitMs);
  // All of it is read and checked before anything is begun.
  const changes = await changesOf(name, version);
  const pieces = entriesOf(changes);
  const begun = await ask(() => journal.beginAgain({ lease, keepThrough: 0 }), limitMs(), 'the journal');
  let head = { seq: begun.state.seq, hash: begun.state.hash };
  let done = 0;
  for (const [at, piece] of pieces.entries()) {
    const title = pieces.length === 1 ? 'Keep what was here' : `Keep what was here, ${at + 1} of ${pieces.length}`;
    const payload = { title, key: crypto.randomUUID(), undoable: false, changes: piece };
    const request = { lease, seq: head.seq + 1, user: '', action: 'adopt', payload };
    const { seq, hash } = await ask(() => journal.append(request), limitMs(), 'the journal');
    head = { seq, hash };
    done += piece.length;
    progress(done, changes.length);
  }
  if (isOlder) {
    // Numbered behind the old one, whatever the journal pointed at.
    if (begun.state.database !== name) await ask(() => journal.setDatabase({ lease, name }), limitMs(), 'the journal');
    return await rebuild({ journal, lease, makeCopy, limitMs, progress });
  }
  const copy = makeCopy(name);
  try {
    await within(settled(copy.open()), limitMs(), 'the working copy (opening it)');
    await within(settled(copy.meta().put({ key: 'head', ...head })), limitMs(), 'the working copy');
  } finally {
    copy.shut();
  }
  if (begun.state.database !== name) await ask(() => journal.setDatabase({ lease, name }), limitMs(), 'the journal');
  return name;
}

async function versionOf(name: string): Promise<number> {
  const listed = await listDatabases();
  return (listed.find((database) => database.name === name)?.version ?? 0) / nativeVersion(1);
}

/** Records that were saved and had not reached their tables are kept with the rest. */
async function takeInArrivals(name: string, makeCopy: AdoptAround['makeCopy'], limitMs: () => number): Promise<void> {
  const copy = makeCopy(name);
  try {
    await within(settled(copy.open()), limitMs(), 'the working copy (opening it)');
    await takeIn(copy);
  } finally {
    copy.shut();
  }
}

/** @throws RefusedError naming the first record that is not whole: a journal is not begun with it */
async function changesOf(name: string, version: number): Promise<Change[]> {
  const contents = withArrivals(await rawContents(name));
  return tableNames.flatMap((table) => {
    const rows = contents[table] ?? [];
    if (!Array.isArray(rows))
      throw new RefusedError({ code: 'internal', message: `${table} cannot be read: ${rows.fault}`, field: table });
    return rows.map((kept): Change => {
      const row = broughtUp(table, kept as Record<string, unknown>, version);
      const checked = recordSchemas[table].safeParse(row);
      if (!checked.success) {
        const { refusal } = refusalFromZod(checked.error, { input: row });
        const message = `${nameOf(table, row as Partial<AnyRecord>)}: ${refusal.message}`;
        throw new RefusedError({ ...refusal, message, field: `${table}.${refusal.field ?? ''}` });
      }
      return { table, id: checked.data.id, before: null, after: checked.data };
    });
  });
}

function entriesOf(changes: readonly Change[]): Change[][] {
  const pieces: Change[][] = [];
  let piece: Change[] = [];
  let characters = 0;
  for (const change of changes) {
    const length = JSON.stringify(change).length;
    if (piece.length > 0 && (characters + length > pieceMost.characters || piece.length >= pieceMost.changes)) {
      pieces.push(piece);
      piece = [];
      characters = 0;
    }
    piece.push(change);
    characters += length;
  }
  return piece.length === 0 ? pieces : [...pieces, piece];
}
