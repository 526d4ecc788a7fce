/** Whole entries from one on, as many as fit an answer; each is checked again on its way out. */
import type { JournalEntry, JournalPage } from '../../shared-types/journal.ts';
import type { Disk } from '../files/disk.ts';
import { HostRefusal } from '../site/refusal.ts';
import { readLine } from './entry.ts';
import { linesOf, readSegment, segmentsIn } from './segments.ts';

const pageBytes = 8 * 1024 * 1024;

export async function readPage(
  folder: string,
  { from, through }: { from: number; through: number },
  disk: Disk,
  mostBytes = pageBytes,
): Promise<JournalPage> {
  const entries: JournalEntry[] = [];
  if (from > through) return { entries, next: null };
  const segments = await segmentsIn(folder, disk);
  const begin = segments.findLastIndex(({ first }) => first <= from);
  let bytes = 0;
  let prevHash: string | null = null;
  for (const segment of segments.slice(Math.max(begin, 0))) {
    let seq = segment.first - 1;
    for (const { line } of linesOf(await readSegment(folder, segment, disk))) {
      seq += 1;
      if (seq < from) continue;
      if (seq > through) return { entries, next: null };
      // One entry at least, however long it is.
      if (entries.length > 0 && bytes + line.length > mostBytes) return { entries, next: seq };
      const read = readLine(line, { seq, prevHash });
      if ('reason' in read) throw changed(segment.name, seq - segment.first + 1, read.reason);
      entries.push(read.entry);
      bytes += line.length;
      prevHash = read.entry.hash;
    }
  }
  return { entries, next: null };
}

/** It was whole when it was opened. */
function changed(file: string, row: number, reason: string): HostRefusal {
  return new HostRefusal({
    code: 'unreadable-file',
    message: `The journal was changed while it was open: ${file}, line ${row}: ${reason}`,
    file,
    row,
  });
}
