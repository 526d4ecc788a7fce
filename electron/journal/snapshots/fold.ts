/** What the journal's lines make of its records; a snapshot spares the entries before it. */
import { setImmediate as breathe } from 'node:timers/promises';
import { emptyHash, type JournalEntry } from '../../../shared-types/journal.ts';
import { recordsVersion, tableNames, type TableName } from '../../../shared-types/records/index.ts';
import { broughtUp } from '../../../shared-types/records/versions.ts';
import { inOrderOfIds, lineOfRecord, type SnapshotTables } from '../../../shared-types/snapshotLines.ts';
import type { Disk } from '../../files/disk.ts';
import { hashOfLine } from '../entry.ts';
import { entryText, type EntryFrame } from '../entryText.ts';
import { linesOf, readSegment, segmentsIn } from '../segments.ts';
import type { Lines, SnapshotBase } from './format.ts';

/** The process has a window or a server to answer for meanwhile: it does so after so many records. */
const breathEvery = 500;

export interface Standing {
  seq: number;
  hash: string;
}

/** An entry, and what is held of each record that it left, in their order. */
interface Taken<Held> {
  frame: EntryFrame;
  left: readonly { table: TableName; id: string; held: Held | null }[];
}

/** Of each table, what its records have become; null where one has gone. */
type Changes<Held> = ReadonlyMap<TableName, Map<string, Held | null>>;

/** Thrown where the lines do not come to what the journal says it stands at. */
class FoldError extends Error {
  override readonly name = 'FoldError';
}

/**
 * The lines were verified when the journal was opened, or written since; that each is still what its hash says, and follows upon the one before,
 * is asked here again.
 *
 * @param place - the folder of entries
 * @param until - where the journal stands
 * @param from - where an earlier snapshot of the same journal stands, or null to read every line
 * @param take - called once for every entry's text
 */
async function foldEntries<Held>(
  place: string,
  until: Standing,
  from: Standing | null,
  take: (text: string) => Taken<Held>,
  disk: Disk,
): Promise<Changes<Held>> {
  const changes: Changes<Held> = new Map(tableNames.map((name) => [name, new Map()]));
  let [seq, hash] = from === null ? [0, emptyHash] : [from.seq, from.hash];
  let sinceBreath = 0;
  const segments = await segmentsIn(place, disk);
  for (const [index, segment] of segments.entries()) {
    const next = segments[index + 1];
    if (next !== undefined && next.first <= seq + 1) continue;
    let at = segment.first - 1;
    for (const { line, finished } of linesOf(await readSegment(place, segment, disk))) {
      at += 1;
      if (!finished || at > until.seq) break;
      if (at <= seq) continue;
      const { frame, left } = take(line.toString('utf8'));
      if (frame.seq !== seq + 1 || frame.prevHash !== hash)
        throw new FoldError(`entry ${frame.seq} of the journal does not follow upon entry ${seq}`);
      if (hashOfLine(line, frame.hash) !== frame.hash)
        throw new FoldError(`entry ${frame.seq} of the journal is not what its hash says any more`);
      for (const { table, id, held } of left) changes.get(table)?.set(id, held);
      [seq, hash] = [frame.seq, frame.hash];
      sinceBreath += left.length;
      if (sinceBreath < breathEvery) continue;
      sinceBreath = 0;
      await breathe();
    }
  }
  if (seq !== until.seq || hash !== until.hash)
    throw new FoldError(`the journal stands at entry ${until.seq}; its lines come to entry ${seq}`);
  return changes;
}

/** The records as they stand, every line read. */
export async function recordsAt(place: string, until: Standing, disk: Disk): Promise<SnapshotTables> {
  const changes = await foldEntries(place, until, null, recordsLeft, disk);
  return new Map(
    [...changes].map(([name, own]): [TableName, Map<string, Record<string, unknown>>] => [name, withoutNulls(own)]),
  );
}

const withoutNulls = <Held>(own: ReadonlyMap<string, Held | null>): Map<string, Held> =>
  new Map([...own].flatMap(([id, held]): [string, Held][] => (held === null ? [] : [[id, held]])));

/**
 * The lines of a snapshot as they stand. A table that nothing has changed since keeps those it had.
 *
 * @param from - a whole snapshot of the same journal, or null to read every line
 */
export async function linesAt(place: string, until: Standing, from: SnapshotBase | null, disk: Disk): Promise<Lines> {
  const changes = await foldEntries(place, until, from?.head ?? null, linesLeft, disk);
  const lines = new Map(from?.lines);
  for (const [name, own] of changes) if (own.size > 0) lines.set(name, await changed(lines.get(name) ?? [], own));
  return lines;
}

/** Lines in order of their ids, and what some of them have become. The more of them stay, the fewer are read. */
async function changed(lines: readonly string[], changes: ReadonlyMap<string, string | null>): Promise<string[]> {
  const made: string[] = [];
  let [from, count] = [0, 0];
  for (const [id, line] of inOrderOfIds(changes)) {
    const at = placeOf(id, lines, from);
    for (; from < at; from += 1) made.push(lines[from] ?? '');
    if (idAt(lines, at) === id) from += 1;
    if (line !== null) made.push(line);
    count += 1;
    if (count % breathEvery === 0) await breathe();
  }
  for (; from < lines.length; from += 1) made.push(lines[from] ?? '');
  return made;
}

/** The first from there on whose id does not come before it: looked for in steps that double, and then between the last two. */
function placeOf(id: string, lines: readonly string[], from: number): number {
  const isBefore = (at: number): boolean => {
    const other = idAt(lines, at);
    return other !== null && other < id;
  };
  let [low, step] = [from, 1];
  while (isBefore(low + step - 1)) [low, step] = [low + step, 2 * step];
  let high = Math.min(low + step - 1, lines.length);
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (isBefore(middle)) low = middle + 1;
    else high = middle;
  }
  return low;
}

function idAt(lines: readonly string[], at: number): string | null {
  const line = lines[at];
  if (line === undefined) return null;
  const [, record] = JSON.parse(line) as [string, { id: string }];
  return record.id;
}

/** Read as JSON, and in the shape of this version. */
function recordsLeft(text: string): Taken<Record<string, unknown>> {
  const frame = JSON.parse(text) as JournalEntry;
  const { payload, schema } = frame;
  const left = payload.changes.map(({ table, id, after }) => ({
    table,
    id,
    held: after === null ? null : broughtUp(table, after, schema),
  }));
  return { frame, left };
}

/** An entry's text is canonical, and what of it is a record is that record's text; one that must be brought up is read. */
function linesLeft(text: string): Taken<string> {
  const read = entryText(text);
  if (read?.frame.schema === recordsVersion) {
    const left = read.changes.map(({ table, id, after }) => ({
      table,
      id,
      held: after === null ? null : `["${table}",${after}]\n`,
    }));
    return { frame: read.frame, left };
  }
  const { frame, left } = recordsLeft(text);
  return {
    frame,
    left: left.map(({ table, id, held }) => ({ table, id, held: held === null ? null : lineOfRecord(table, held) })),
  };
}
