/** Reads every line of the journal and checks its shape, its place in the chain and its hash. */
import { setImmediate as breathe } from 'node:timers/promises';
import type { JournalDamage } from '../../shared-types/journal.ts';
import type { Disk } from '../files/disk.ts';
import { stillHolds, type Checkpoint } from './checkpoint.ts';
import { readLine } from './entry.ts';
import { linesOf, readSegment, segmentAt, segmentsIn, type Segment } from './segments.ts';
import { newTally, type Tally } from './tally.ts';

/** As printed on paper: the sequence, where it is known, and at least the first eight signs of its hash. */
export interface PrintedHead {
  /** Null: of any entry. */
  seq: number | null;
  hash: string;
}

export interface Verified {
  tally: Tally;
  segments: Segment[];
  /** Bytes in the last segment, without those of a torn line. */
  lastBytes: number;
  damage: JournalDamage | null;
  /** Bytes that were read line by line. */
  readBytes: number;
  /** A last line that was never finished. */
  torn: { segment: Segment; bytes: Buffer } | null;
}

/** The process has a window or a server to answer for meanwhile. */
const breathEvery = 500;

/**
 * @param checkpoint - what an earlier verification came to; where the bytes it is of have not changed, only what follows is read
 */
export async function verify(
  folder: string,
  disk: Disk,
  printed: PrintedHead | null = null,
  checkpoint: Checkpoint | null = null,
): Promise<Verified> {
  const segments = await segmentsIn(folder, disk);
  // A head from paper is looked for among all lines.
  const mayKnow = checkpoint !== null && printed === null;
  const known = mayKnow && (await stillHolds(checkpoint, folder, segments, disk)) ? checkpoint : null;
  const tally = newTally(known?.tally);
  const verified: Verified = { tally, segments, lastBytes: 0, damage: null, readBytes: 0, torn: null };
  /** What is still to be found: a head named by its number is held at its own entry. */
  let sought = printed;
  const knownLast = (known?.segments.length ?? 0) - 1;
  for (const [index, segment] of segments.entries()) {
    if (index < knownLast) continue;
    const isKnown = index === knownLast;
    const due = isKnown ? segment : segmentAt(tally.seq + 1);
    if (segment.name !== due.name) return damaged(verified, due.name, 1, 'the file is missing');
    const bytes = await readSegment(folder, segment, disk);
    const start = isKnown ? (known?.segments.at(-1)?.bytes ?? 0) : 0;
    verified.readBytes += bytes.length - start;
    const isLast = index === segments.length - 1;
    let lineNumber = isKnown ? tally.seq - segment.first + 1 : 0;
    for (const { line, finished, from } of linesOf(bytes, start)) {
      lineNumber += 1;
      if (!finished && isLast) {
        verified.torn = { segment, bytes: line };
        verified.lastBytes = from;
        return checkPrinted(verified, sought);
      }
      if (!finished) return damaged(verified, segment.name, lineNumber, 'the line was never finished');
      const read = readLine(line, { seq: tally.seq + 1, prevHash: tally.hash });
      if ('reason' in read) return damaged(verified, segment.name, lineNumber, read.reason);
      tally.fold(read.entry);
      if (tally.seq % breathEvery === 0) await breathe();
      if (printed?.seq === tally.seq && !isHead(printed, tally)) {
        return damaged(verified, segment.name, lineNumber, 'its hash is not the one printed');
      }
      if (sought?.seq === null && isHead(sought, tally)) sought = null;
    }
    verified.lastBytes = bytes.length;
  }
  return checkPrinted(verified, sought);
}

/** A chain cut at its end is whole in itself: only a head noted elsewhere shows it. */
function checkPrinted(verified: Verified, printed: PrintedHead | null): Verified {
  const { tally, segments } = verified;
  if (printed === null || (printed.seq !== null && printed.seq <= tally.seq)) return verified;
  const name = segments.at(-1)?.name ?? segmentAt(1).name;
  const line = tally.seq - (segments.at(-1)?.first ?? 1) + 2;
  const missing = printed.seq === null ? 'no entry has the hash that was printed' : `entry ${printed.seq} was printed`;
  return damaged(verified, name, line, `it ends with entry ${tally.seq}; ${missing}`);
}

function isHead({ hash }: PrintedHead, tally: Tally): boolean {
  return hash.length >= 8 && tally.hash.startsWith(hash);
}

function damaged(verified: Verified, file: string, line: number, reason: string): Verified {
  return { ...verified, damage: { intactSeq: verified.tally.seq, file, line, reason }, torn: null };
}
