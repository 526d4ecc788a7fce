/** A process of its own that makes a snapshot and ends itself, as `kill -9` would, after the call it is told. */
import { join } from 'node:path';
import { realDisk, type Disk, type DiskFile } from '../../../electron/files/disk.ts';
import { journalIn } from '../../../electron/journal/journal.ts';
import { snapshotKeeper } from '../../../electron/journal/snapshots/keeper.ts';
import type { SnapshotStep } from '../snapshots.ts';

const within = process.argv[2] ?? '';
const step = process.argv[3] as SnapshotStep;

const end = (at: SnapshotStep, path: string): void => {
  const counts = at === 'folder' ? path.endsWith('snapshots') : /\.(?:part|snapshot)$/.test(path);
  if (at === step && counts) process.kill(process.pid, 'SIGKILL');
};

const killed = (file: DiskFile, path: string): DiskFile => ({
  async write(bytes) {
    // A part of it is on its way: no write of a real disk is all or nothing.
    if (step !== 'write') return await file.write(bytes);
    const written = await file.write(bytes.subarray(0, bytes.length >> 1));
    end('write', path);
    return written;
  },
  async sync() {
    end('folder', path);
    await file.sync();
    end('sync', path);
  },
  async close() {
    await file.close();
    end('close', path);
  },
  datasync: () => file.datasync(),
  truncate: (length) => file.truncate(length),
  chmod: (mode) => file.chmod(mode),
  stat: () => file.stat(),
});

const disk: Disk = {
  ...realDisk,
  async open(path, flags, mode) {
    const file = await realDisk.open(path, flags, mode);
    end('open', path);
    return killed(file, path);
  },
  async readFile(path) {
    if (path.endsWith('.part')) end('readFile', path);
    return await realDisk.readFile(path);
  },
  async rename(from, to) {
    await realDisk.rename(from, to);
    end('rename', to);
  },
};

const journal = journalIn({ folder: join(within, 'journal') });
await journal.open();
await snapshotKeeper({ folder: join(within, 'snapshots'), journal: () => journal.standing(), disk }).make('asked');
