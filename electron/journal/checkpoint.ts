/**
 * What a verification of the journal came to, so that the next opening need not read again every line that stands there. It says
 * of each file how long it was and its SHA-256; what has changed by one byte since is read line by line as if there were no
 * checkpoint. It is a convenience: a damaged one is passed over, and one that cannot be written is done without.
 */
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { canonicalJson } from '../../shared-types/canonicalJson.ts';
import { recordsVersion } from '../../shared-types/records/index.ts';
import { z } from '../../shared-types/schema.ts';
import type { Disk } from '../files/disk.ts';
import { writeWhole } from '../files/writeWhole.ts';
import { readSegment, segmentsIn, type Segment } from './segments.ts';
import type { End } from './segmentWriter.ts';
import { tallyStateSchema, type Tally } from './tally.ts';

const fileName = 'checkpoint';
const hash = z.string().regex(/^[0-9a-f]{64}$/);

const checkpointSchema = z.strictObject({
  form: z.literal(1),
  /** By other shapes of records the lines would have to be read again. */
  recordsVersion: z.literal(recordsVersion),
  /** The folder of entries it is of. */
  entries: z.string(),
  /** Each file from the first on; of the last one so many bytes. */
  segments: z.array(z.strictObject({ name: z.string(), bytes: z.int().min(1), sha256: hash })).min(1),
  tally: tallyStateSchema,
});

export type Checkpoint = z.infer<typeof checkpointSchema>;

/** Null where there is none, or none that can be read, or it is of other entries. */
export async function readCheckpoint(folder: string, entries: string, disk: Disk): Promise<Checkpoint | null> {
  try {
    const text = (await disk.readFile(join(folder, fileName))).toString('utf8');
    const end = text.indexOf('\n');
    const body = text.slice(end + 1);
    if (sha256(Buffer.from(body)) !== text.slice(0, end)) return null;
    const read = checkpointSchema.safeParse(JSON.parse(body));
    return read.success && read.data.entries === entries ? read.data : null;
  } catch {
    return null;
  }
}

/** @returns whether each file that it is of still begins with the very bytes it was made from */
export async function stillHolds(
  { segments }: Checkpoint,
  place: string,
  there: readonly Segment[],
  disk: Disk,
): Promise<boolean> {
  for (const [at, { name, bytes, sha256: sum }] of segments.entries()) {
    const segment = there[at];
    if (segment?.name !== name) return false;
    const held = await readSegment(place, segment, disk);
    const isOver = at < segments.length - 1;
    if (isOver ? held.length !== bytes : held.length < bytes) return false;
    if (sha256(held.subarray(0, bytes)) !== sum) return false;
  }
  return true;
}

/** A checkpoint is due after so many bytes, at an opening and while the journal is written. */
const everyBytes = 4 * 1024 * 1024;

export interface CheckpointKeeper {
  /** @param readBytes - read line by line beyond it */
  opened(checkpoint: Checkpoint | null, readBytes: number): void;
  appended(bytes: number): void;
  isDue(): boolean;
  /** @param end - where the last line ends that the tally has */
  write(entries: string, end: End, tally: Tally): Promise<void>;
}

export function checkpointKeeper(folder: string, disk: Disk, dueBytes = everyBytes): CheckpointKeeper {
  let before: Checkpoint | null = null;
  let since = 0;

  /** Files that were over by the last checkpoint are not read again. */
  const sumOf = async (place: string, segment: Segment, end: End): Promise<Checkpoint['segments'][number]> => {
    const known = before?.segments.slice(0, -1).find(({ name }) => name === segment.name);
    if (known !== undefined) return known;
    const held = await readSegment(place, segment, disk);
    const bytes = segment.name === end.segment?.name ? end.bytes : held.length;
    return { name: segment.name, bytes, sha256: sha256(held.subarray(0, bytes)) };
  };

  return {
    opened(checkpoint, readBytes) {
      before = checkpoint;
      since = readBytes;
    },
    appended(bytes) {
      since += bytes;
    },
    isDue: () => since >= dueBytes,
    async write(entries, end, tally) {
      // Where it cannot be written, it is tried again after as many bytes.
      since = 0;
      const place = join(folder, entries);
      const segments: Checkpoint['segments'] = [];
      for (const segment of await segmentsIn(place, disk)) segments.push(await sumOf(place, segment, end));
      const checkpoint: Checkpoint = { form: 1, recordsVersion, entries, segments, tally: tally.state() };
      const body = canonicalJson(checkpoint);
      await writeWhole(join(folder, fileName), Buffer.from(`${sha256(Buffer.from(body))}\n${body}`), 0o600, disk);
      before = checkpoint;
    },
  };
}

function sha256(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}
