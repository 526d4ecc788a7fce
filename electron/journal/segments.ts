/** The journal's files: segments of some ten megabytes, each named by its first entry, in a folder of their own. */
import { join } from 'node:path';
import type { Disk } from '../files/disk.ts';

export const segmentBytes = 10 * 1024 * 1024;
const segmentName = /^(\d{12})\.jsonl$/;
const folderName = /^entries-(\d{1,6})$/;

export interface Segment {
  name: string;
  /** Sequence of its first entry. */
  first: number;
}

export function segmentAt(first: number): Segment {
  return { name: `${String(first).padStart(12, '0')}.jsonl`, first };
}

export async function segmentsIn(folder: string, disk: Disk): Promise<Segment[]> {
  const names = (await disk.readdir(folder)).filter((name) => segmentName.test(name)).toSorted();
  return names.map((name) => ({ name, first: Number(segmentName.exec(name)?.[1]) }));
}

/** The folder in use is the one with the highest number; the others were set aside. Null where there is none. */
export async function entriesFolder(journal: string, disk: Disk): Promise<{ name: string; number: number } | null> {
  const numbers = (await disk.readdir(journal)).flatMap((name) => {
    const number = folderName.exec(name)?.[1];
    return number === undefined ? [] : [Number(number)];
  });
  return numbers.length === 0 ? null : numbered(Math.max(...numbers));
}

export function numbered(number: number): { name: string; number: number } {
  return { name: `entries-${number}`, number };
}

const lineEnd = 0x0a;

/** The lines of a segment without their ends, and the bytes after the last end; from the line on that begins at `start`. */
export function* linesOf(bytes: Buffer, start = 0): Generator<{ line: Buffer; finished: boolean; from: number }> {
  for (let from = start; from < bytes.length;) {
    const end = bytes.indexOf(lineEnd, from);
    yield { line: bytes.subarray(from, end < 0 ? bytes.length : end), finished: end >= 0, from };
    if (end < 0) return;
    from = end + 1;
  }
}

export async function readSegment(folder: string, { name }: Segment, disk: Disk): Promise<Buffer> {
  return await disk.readFile(join(folder, name));
}
