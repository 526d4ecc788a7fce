/** All records as they stand after the journal's last entry, from its lines; a snapshot spares the entries before it. */
import { setImmediate as breathe } from 'node:timers/promises';
import { emptyHash, type JournalEntry } from '../../../shared-types/journal.ts';
import { tableNames, type TableName } from '../../../shared-types/records/index.ts';
import { broughtUp } from '../../../shared-types/records/versions.ts';
import type { Disk } from '../../files/disk.ts';
import { linesOf, readSegment, segmentsIn } from '../segments.ts';
import type { ReadSnapshot } from './format.ts';

/** The process has a window or a server to answer for meanwhile. */
const breathEvery = 500;

export interface Standing {
  seq: number;
  hash: string;
}

/** Thrown where the lines do not come to what the journal says it stands at. */
class FoldError extends Error {
  override readonly name = 'FoldError';
}

/**
 * The lines were verified when the journal was opened, or written since; here only their order and the head are held against it.
 *
 * @param place - the folder of entries
 * @param until - where the journal stands
 * @param from - a whole snapshot of the same journal, or null to read every line
 */
export async function foldEntries(
  place: string,
  until: Standing,
  from: ReadSnapshot | null,
  disk: Disk,
): Promise<ReadSnapshot['tables']> {
  const tables: ReadSnapshot['tables'] =
    from === null ? new Map(tableNames.map((name) => [name, new Map()])) : copyOf(from.tables);
  let [seq, hash] = from === null ? [0, emptyHash] : [from.head.seq, from.head.hash];
  for (const segment of await segmentsIn(place, disk)) {
    let at = segment.first - 1;
    for (const { line, finished } of linesOf(await readSegment(place, segment, disk))) {
      at += 1;
      if (!finished || at > until.seq) break;
      if (at <= seq) continue;
      const entry = JSON.parse(line.toString('utf8')) as JournalEntry;
      if (entry.seq !== seq + 1 || entry.prevHash !== hash)
        throw new FoldError(`entry ${entry.seq} of the journal does not follow upon entry ${seq}`);
      take(entry, tables);
      [seq, hash] = [entry.seq, entry.hash];
      if (seq % breathEvery === 0) await breathe();
    }
  }
  if (seq !== until.seq || hash !== until.hash)
    throw new FoldError(`the journal stands at entry ${until.seq}; its lines come to entry ${seq}`);
  return tables;
}

function take({ payload, schema }: JournalEntry, tables: ReadSnapshot['tables']): void {
  for (const { table, id, after } of payload.changes) {
    if (after === null) tables.get(table)?.delete(id);
    else tables.get(table)?.set(id, broughtUp(table, after, schema));
  }
}

function copyOf(tables: ReadSnapshot['tables']): ReadSnapshot['tables'] {
  return new Map(
    [...tables].map(([name, records]): [TableName, Map<string, Record<string, unknown>>] => [name, new Map(records)]),
  );
}
