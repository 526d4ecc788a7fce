/**
 * Many records on their way into their tables. One record after another is what takes the browser's database long, so a large
 * entry is first laid down in blocks, whole, in one transaction: from then on it is on the disk in both forms. The tables take it
 * in behind that, in one transaction too; until they have, whatever reads or writes them waits.
 */
import type { Change } from '../../../shared-types/journal.ts';
import { inPieces } from '../inPieces.ts';
import type { EntryToApply } from './applyEntries.ts';
import { applyEntries, PartedError } from './applyEntries.ts';
import type { ArrivalBlock, WorkingCopy } from './workingCopy.ts';
import { allTables, settled } from './workingCopy.ts';

/** From so many changes on an entry is laid down first. */
export const manyFrom = 2000;

/** Large enough to be few, small enough to be packed well under the 50 ms that a hand feels. */
const blockSize = 200;
/** So many blocks are handed over before the page answers the hand. */
const atOnce = 5;

/**
 * Keeps an entry, in its tables or laid down for them: resolves once it is on the disk.
 *
 * @throws PartedError where it does not follow upon the copy's head
 */
export async function keepEntry(
  copy: WorkingCopy,
  entry: EntryToApply,
  onPiece: (records: number) => void,
): Promise<void> {
  if (entry.changes.length < manyFrom) return await applyEntries(copy, [entry], onPiece);
  await layDown(copy, entry, onPiece);
  copy.takes(takeIn(copy));
}

/**
 * Lays an entry down behind the copy's head.
 *
 * @param onPiece - told of each block that is handed to the database
 * @throws PartedError where it does not follow upon the copy's head
 */
export function layDown(
  copy: WorkingCopy,
  { seq, hash, prevHash, changes }: EntryToApply,
  onPiece: (records: number) => void = () => undefined,
): Promise<void> {
  const pieces = [...inPieces(changes, blockSize)];
  return settled(
    copy.transaction('rw', ['arrivals', 'meta'], async () => {
      const head = await copy.meta().get('head');
      if (head?.seq !== seq - 1 || head.hash !== prevHash)
        throw new PartedError(`entry ${seq} of the journal does not follow upon entry ${head?.seq ?? 'none'} here`);
      await copy.arrivals().clear();
      // What a record was is for the journal: the tables take what it is.
      const blocks = pieces.map((piece, at): ArrivalBlock => {
        const bare = piece.map(({ table, id, after }) => ({ table, id, before: null, after }));
        return { at, of: pieces.length, seq, hash, prevHash, changes: bare };
      });
      for (const some of inPieces(blocks, atOnce)) {
        await copy.arrivals().bulkPut(some);
        onPiece(some.reduce((sum, block) => sum + block.changes.length, 0));
      }
    }),
  );
}

/** How many records are laid down, as far as its blocks say; at most some more. */
export async function laidDown(copy: WorkingCopy): Promise<number> {
  return (await settled(copy.arrivals().count())) * blockSize;
}

/**
 * Has the tables take in what was laid down, if anything was and it follows upon the copy's head: all of it or nothing. Anything
 * else is let be, for the journal has it.
 */
export async function takeIn(copy: WorkingCopy): Promise<void> {
  await navigator.locks.request(lockOf(copy.name), () => takeInNow(copy));
}

/** Resolves once no window is having the tables of this database take in anything. */
export async function whenTakenIn(name: string): Promise<void> {
  await navigator.locks.request(lockOf(name), { mode: 'shared' }, () => undefined);
}

const lockOf = (name: string): string => `arrivals of ${name}`;

function takeInNow(copy: WorkingCopy): Promise<void> {
  return settled(
    copy.transaction('rw', [...allTables, 'arrivals'], async () => {
      const first = await copy.arrivals().get(0);
      const head = await copy.meta().get('head');
      if (first === undefined || head === undefined) return;
      if (first.seq === head.seq + 1 && first.prevHash === head.hash && (await isWhole(copy, first))) {
        for (let at = 0; at < first.of; at += 1) await takeBlock(copy, (await copy.arrivals().get(at))?.changes ?? []);
        await copy.meta().put({ key: 'head', seq: first.seq, hash: first.hash });
        await copy.arrivals().clear();
      } else if (first.seq <= head.seq) await copy.arrivals().clear();
    }),
  );
}

/** As many blocks as there must be, and the last of the same entry as the first. */
async function isWhole(copy: WorkingCopy, { of, hash }: ArrivalBlock): Promise<boolean> {
  const last = await copy.arrivals().get(of - 1);
  return last?.hash === hash && (await copy.arrivals().count()) === of;
}

async function takeBlock(copy: WorkingCopy, changes: readonly Change[]): Promise<void> {
  for (const name of new Set(changes.map(({ table }) => table))) {
    const own = changes.filter(({ table }) => table === name);
    const gone = own.flatMap(({ id, after }) => (after === null ? [id] : []));
    if (gone.length > 0) await copy.table(name).bulkDelete(gone);
    await copy.table(name).bulkPut(own.flatMap(({ after }) => after ?? []));
  }
}
