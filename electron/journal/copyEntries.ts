/** The intact entries again, in a folder of their own that appears whole or not at all. The former folder stays. */
import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import { syncFolder, type Disk } from '../files/disk.ts';
import { writeWhole } from '../files/writeWhole.ts';
import { linesOf, numbered, readSegment, segmentsIn } from './segments.ts';
import { verify } from './verify.ts';

/** Makes `entries-<number>` beside the folder `from`, with the entries through `keepThrough`. */
export async function copyEntries(
  journal: string,
  { from, number, keepThrough }: { from: string; number: number; keepThrough: number },
  disk: Disk,
): Promise<void> {
  const staging = join(journal, `.making-${randomBytes(8).toString('hex')}`);
  await disk.mkdir(staging, { mode: 0o700 });
  try {
    for (const segment of await segmentsIn(join(journal, from), disk)) {
      if (segment.first > keepThrough) break;
      const bytes = await readSegment(join(journal, from), segment, disk);
      const kept = bytes.subarray(0, endOfLine(bytes, keepThrough - segment.first + 1));
      await writeWhole(join(staging, segment.name), kept, 0o600, disk);
    }
    const { tally, damage, torn } = await verify(staging, disk);
    if (tally.seq !== keepThrough || damage !== null || torn !== null) {
      throw new Error(`the copy reaches entry ${tally.seq}, not ${keepThrough}`);
    }
    await disk.rename(staging, join(journal, numbered(number).name));
  } catch (cause) {
    await disk.rm(staging, { force: true, recursive: true }).catch(() => undefined);
    throw cause;
  }
  await syncFolder(journal, disk);
}

/** Where that many lines end; the whole length where there are fewer. */
function endOfLine(bytes: Buffer, lines: number): number {
  let passed = 0;
  for (const { line, from } of linesOf(bytes)) {
    passed += 1;
    if (passed === lines) return from + line.length + 1;
  }
  return bytes.length;
}
