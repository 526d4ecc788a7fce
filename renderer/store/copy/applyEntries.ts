/** Brings entries of the journal into the working copy: all of those given, in one transaction, or none. */
import type { Change } from '../../../shared-types/journal.ts';
import type { AnyRecord, TableName } from '../../../shared-types/records/index.ts';
import { inPieces } from '../inPieces.ts';
import type { WorkingCopy } from './workingCopy.ts';
import { settled } from './workingCopy.ts';

/** Of an entry, what the copy needs. */
export interface EntryToApply {
  seq: number;
  hash: string;
  prevHash: string;
  changes: readonly Change[];
}

/** The copy and the journal have not the same past: whatever is done next must be decided by a person. */
export class PartedError extends Error {
  override readonly name = 'PartedError';
}

/**
 * Entries that the copy has already are passed over, so that twice is the same as once.
 *
 * @param onPiece - told of each piece that is handed to the database
 * @throws PartedError where the first new entry does not follow upon the copy's head
 */
export function applyEntries(
  copy: WorkingCopy,
  entries: readonly EntryToApply[],
  onPiece: (records: number) => void = () => undefined,
): Promise<void> {
  const tables = new Set(entries.flatMap(({ changes }) => changes.map(({ table }) => table)));
  return settled(
    copy.transaction('rw', [...tables, 'meta'], async () => {
      const head = await copy.meta().get('head');
      if (head === undefined) throw new PartedError('the working copy does not say how far it has come');
      const fresh = entries.filter(({ seq }) => seq > head.seq);
      const same = entries.find(({ seq }) => seq === head.seq);
      if (same !== undefined && same.hash !== head.hash)
        throw new PartedError(`entry ${head.seq} of the journal is not the one that the working copy has`);
      const [first] = fresh;
      const last = fresh.at(-1);
      if (first === undefined || last === undefined) return;
      if (first.seq !== head.seq + 1 || first.prevHash !== head.hash)
        throw new PartedError(`entry ${first.seq} of the journal does not follow upon entry ${head.seq} here`);
      for (const [table, { puts, removals }] of netChanges(fresh)) {
        for (const piece of inPieces(removals, pieceSize)) {
          await copy.table(table).bulkDelete(piece);
          onPiece(piece.length);
        }
        for (const piece of inPieces(puts, pieceSize)) {
          await copy.table(table).bulkPut(piece);
          onPiece(piece.length);
        }
      }
      await copy.meta().put({ key: 'head', seq: last.seq, hash: last.hash });
    }),
  );
}

/** Between two pieces the page answers the hand; the transaction is one. */
const pieceSize = 400;

interface Net {
  puts: AnyRecord[];
  removals: string[];
}

/** What several entries come to in the end, table by table. */
function netChanges(entries: readonly EntryToApply[]): Map<TableName, Net> {
  const last = new Map<TableName, Map<string, AnyRecord | null>>();
  for (const { changes } of entries) {
    for (const { table, id, after } of changes) {
      const records = last.get(table) ?? new Map<string, AnyRecord | null>();
      records.set(id, after as AnyRecord | null);
      last.set(table, records);
    }
  }
  return new Map(
    [...last].map(([table, records]): [TableName, Net] => [
      table,
      {
        puts: [...records.values()].filter((record) => record !== null),
        removals: [...records].filter(([, record]) => record === null).map(([id]) => id),
      },
    ]),
  );
}
