/** Puts whole lines at the end of the journal: each is on the disk before it counts, or is not there at all. */
import { join } from 'node:path';
import { syncFolder, writeAll, type Disk, type DiskFile } from '../files/disk.ts';
import { HostRefusal } from '../site/refusal.ts';
import { diskRefusal } from './diskRefusal.ts';
import { segmentAt, segmentBytes, type Segment } from './segments.ts';

export interface SegmentWriter {
  /** Resolves once the line is on the disk. Refused: nothing was added, or nothing more is taken. */
  append(line: Buffer, seq: number): Promise<void>;
  close(): Promise<void>;
  /** Where the last line ends. */
  end(): End;
}

/** Where the last verification ended. */
export interface End {
  segment: Segment | null;
  bytes: number;
}

export function segmentWriter(folder: string, end: End, disk: Disk, mostBytes = segmentBytes): SegmentWriter {
  let { segment, bytes } = end;
  let file: DiskFile | null = null;
  let broken: string | null = null;

  const openFile = async (opened: Segment): Promise<DiskFile> => disk.open(join(folder, opened.name), 'a', 0o600);

  const start = async (seq: number): Promise<DiskFile> => {
    const next = segmentAt(seq);
    const opened = await openFile(next);
    try {
      if ((await opened.stat()).size !== 0) throw new Error(`${next.name} is there already`);
      // A file whose name is not on the disk is lost with everything in it.
      await syncFolder(folder, disk);
    } catch (cause) {
      await opened.close().catch(() => undefined);
      throw cause;
    }
    await file?.close().catch(() => undefined);
    [segment, bytes, file] = [next, 0, opened];
    return opened;
  };

  const fileFor = async (line: Buffer, seq: number): Promise<DiskFile> => {
    const isFull = bytes > 0 && bytes + line.length > mostBytes;
    if (segment === null || isFull) return await start(seq);
    file ??= await openFile(segment);
    // Somebody else's bytes at the end would be cut with ours, or ours would stand after them.
    const { size, nlink } = await file.stat();
    if (size !== bytes) broken = `${segment.name} was changed by another program`;
    // What is open stays open after its name is gone: it would take every line, and all of them would be lost.
    else if (nlink === 0) broken = `${segment.name} was deleted by another program`;
    return file;
  };

  /** After a failed sync the system may have forgotten what it did not write, so the file is opened anew. */
  const rollBack = async (written: DiskFile): Promise<void> => {
    try {
      await written.truncate(bytes);
      await written.sync();
      await written.close();
      file = null;
    } catch (cause) {
      broken = `a line that was not kept could not be taken back (${diskRefusal('the disk', cause).message})`;
    }
  };

  const refuseBroken = (): void => {
    if (broken === null) return;
    throw new HostRefusal({
      code: 'disk',
      message: `Nothing more is saved until this page is loaded again: ${broken}`,
    });
  };

  return {
    async append(line, seq) {
      refuseBroken();
      let target: DiskFile;
      try {
        target = await fileFor(line, seq);
      } catch (cause) {
        throw diskRefusal('Not saved', cause);
      }
      refuseBroken();
      try {
        await writeAll(target, line);
        await target.datasync();
      } catch (cause) {
        await rollBack(target);
        throw diskRefusal('Not saved', cause);
      }
      bytes += line.length;
    },
    end: () => ({ segment, bytes }),
    async close() {
      await file?.close().catch(() => undefined);
      file = null;
    },
  };
}
