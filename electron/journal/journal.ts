/** The journal on the disk: opened whole, verified whole, and only ever added to. */
import { join } from 'node:path';
import { largestBodyBytes } from '../../shared-types/ipc.ts';
import {
  emptyHash,
  type Appended,
  type AppendRequest,
  type JournalDamage,
  type JournalPage,
  type JournalState,
} from '../../shared-types/journal.ts';
import { recordsVersion } from '../../shared-types/records/index.ts';
import { realDisk, syncFolder, type Disk } from '../files/disk.ts';
import { oneAtATime } from '../oneAtATime.ts';
import { HostRefusal } from '../site/refusal.ts';
import { checkpointKeeper, readCheckpoint } from './checkpoint.ts';
import { systemClock, type Clock } from './clock.ts';
import { copyEntries } from './copyEntries.ts';
import { onDisk } from './diskRefusal.ts';
import { faultOf, seal } from './entry.ts';
import { takeLock, type Lock } from './lock.ts';
import { readPage } from './pages.ts';
import { deviceId, readDatabase, writeDatabase } from './pointer.ts';
import { systemProcesses, type Processes } from './processes.ts';
import { segmentWriter, type SegmentWriter } from './segmentWriter.ts';
import { entriesFolder, numbered } from './segments.ts';
import { moveTailAside } from './tail.ts';
import type { Tally } from './tally.ts';
import { verify } from './verify.ts';

export interface JournalOptions {
  folder: string;
  disk?: Disk;
  clock?: Clock;
  processes?: Processes;
  /** Tests of the seams take smaller ones. */
  segmentBytes?: number;
  pageBytes?: number;
  checkpointBytes?: number;
}

export interface Journal {
  open(): Promise<JournalState>;
  append(request: AppendRequest, mayWrite: () => boolean): Promise<Appended>;
  read(request: { from: number }): Promise<JournalPage>;
  setDatabase(request: { name: string }, mayWrite: () => boolean): Promise<void>;
  beginAgain(
    request: { keepThrough: number },
    mayWrite: () => boolean,
  ): Promise<{ state: JournalState; setAside: string }>;
  /** How far it has come, and where its lines lie. @throws HostRefusal where it is not open or damaged */
  standing(): Promise<{ seq: number; hash: string; place: string; deviceId: string }>;
  /** Lets go at once; nothing is taken afterwards. */
  close(): void;
}

/** What an opening found. */
interface Opened {
  entries: { name: string; number: number };
  device: string;
  tally: Tally;
  writer: SegmentWriter;
  damage: JournalDamage | null;
}

export function journalIn(options: JournalOptions): Journal {
  const { folder, disk = realDisk, clock = systemClock, processes = systemProcesses } = options;
  const inTurn = oneAtATime();
  const checkpoints = checkpointKeeper(folder, disk, options.checkpointBytes);
  let lock: Lock | null = null;
  let opened: Opened | null = null;
  let closed = false;

  const mustBeOpen = (): Opened => {
    if (opened !== null && !closed) return opened;
    throw new HostRefusal({ code: 'not-available', message: 'The journal is not open.' });
  };

  /** For the next opening, as a convenience: what keeps it from being written keeps nothing else. */
  const keepCheckpoint = async (): Promise<void> => {
    if (opened === null || closed || opened.damage !== null) return;
    const { entries, tally, writer } = opened;
    await checkpoints.write(entries.name, writer.end(), tally).catch(() => undefined);
  };

  const openNow = async (): Promise<JournalState> => {
    if (closed) mustBeOpen();
    await opened?.writer.close();
    opened = null;
    await disk.mkdir(folder, { recursive: true, mode: 0o700 });
    await disk.chmod(folder, 0o700);
    lock ??= await takeLock(folder, processes);
    const device = await deviceId(folder, disk);
    const database = await readDatabase(folder, disk);
    const entries = (await entriesFolder(folder, disk)) ?? (await firstFolder());
    const place = join(folder, entries.name);
    const checkpoint = await readCheckpoint(folder, entries.name, disk);
    const verified = await verify(place, disk, null, checkpoint);
    const { tally, segments, lastBytes, damage } = verified;
    const tail = await moveTailAside(place, verified, disk, clock);
    const end = { segment: segments.at(-1) ?? null, bytes: lastBytes };
    opened = { entries, device, tally, damage, writer: segmentWriter(place, end, disk, options.segmentBytes) };
    checkpoints.opened(checkpoint, verified.readBytes);
    if (checkpoints.isDue()) await keepCheckpoint();
    const { seq, hash, schema } = tally;
    const found = { seq, hash, counts: tally.counts(), schema, database, damage, tail, recent: tally.recent() };
    return { ...found, further: null };
  };

  const firstFolder = async (): Promise<{ name: string; number: number }> => {
    const first = numbered(1);
    await disk.mkdir(join(folder, first.name), { mode: 0o700 });
    await syncFolder(folder, disk);
    return first;
  };

  const appendNow = async (request: AppendRequest, mayWrite: () => boolean): Promise<Appended> => {
    const { tally, damage, device, writer } = mustBeOpen();
    const { seq, user, action, payload } = request;
    const before = tally.answered(payload.key);
    if (before !== undefined) return before;
    if (!mayWrite()) throw notWriter();
    if (damage !== null) throw new HostRefusal({ code: 'disk', message: 'The journal is damaged and takes nothing.' });
    if (tally.schema > recordsVersion) throw newer(tally.schema);
    if (seq !== tally.seq + 1) throw behind(seq, tally.seq);
    const now = { ...clock(), schema: recordsVersion, prevHash: tally.hash };
    const body = { seq, deviceId: device, user, action, payload, ...now };
    // Checked before it is written out: what is nested too deep could not even be hashed.
    const fault = faultOf({ ...body, hash: emptyHash });
    if (fault !== null) throw new HostRefusal(fault);
    const { entry, line } = seal(body);
    if (line.length > largestBodyBytes) throw tooLarge(line.length);
    await writer.append(line, seq);
    tally.fold(entry);
    checkpoints.appended(line.length);
    if (checkpoints.isDue()) void inTurn(keepCheckpoint);
    return { seq, hash: entry.hash, utc: entry.utc };
  };

  const beginAgainNow = async (keepThrough: number): Promise<{ state: JournalState; setAside: string }> => {
    const { entries, tally } = mustBeOpen();
    if (keepThrough > tally.seq) {
      throw new HostRefusal({
        code: 'out-of-range',
        message: `Only ${tally.seq} entries are intact; ${keepThrough} cannot be kept.`,
        value: keepThrough,
      });
    }
    await copyEntries(folder, { from: entries.name, number: entries.number + 1, keepThrough }, disk);
    return { state: await openNow(), setAside: entries.name };
  };

  return {
    open: () => inTurn(() => onDisk(`The journal in ${folder} cannot be opened`, openNow)),
    append: (request, mayWrite) => inTurn(() => onDisk('Not saved', () => appendNow(request, mayWrite))),
    read: ({ from }) =>
      inTurn(() =>
        onDisk('The journal cannot be read', () => {
          const { entries, tally } = mustBeOpen();
          return readPage(join(folder, entries.name), { from, through: tally.seq }, disk, options.pageBytes);
        }),
      ),
    setDatabase: ({ name }, mayWrite) =>
      inTurn(() =>
        onDisk('The database was not changed', async () => {
          mustBeOpen();
          if (!mayWrite()) throw notWriter();
          await writeDatabase(folder, name, disk);
        }),
      ),
    beginAgain: ({ keepThrough }, mayWrite) =>
      inTurn(() =>
        onDisk('The journal was not begun again', async () => {
          if (!mayWrite()) throw notWriter();
          return await beginAgainNow(keepThrough);
        }),
      ),
    standing: () =>
      inTurn(async () => {
        const { entries, tally, device, damage } = mustBeOpen();
        if (damage !== null) throw new HostRefusal({ code: 'disk', message: 'The journal is damaged.' });
        return { seq: tally.seq, hash: tally.hash, place: join(folder, entries.name), deviceId: device };
      }),
    close() {
      closed = true;
      void opened?.writer.close();
      lock?.release();
      lock = null;
    },
  };
}

function notWriter(): HostRefusal {
  return new HostRefusal({ code: 'not-writer', message: 'This window may not save: another one does.' });
}

function behind(asked: number, held: number): HostRefusal {
  return new HostRefusal({
    code: 'behind',
    message: `The journal holds ${held} entries, so the next is ${held + 1}, not ${asked}.`,
    value: asked,
  });
}

function newer(schema: number): HostRefusal {
  return new HostRefusal({
    code: 'not-available',
    message: `The journal holds records of version ${schema}; this program writes version ${recordsVersion}.`,
  });
}

function tooLarge(bytes: number): HostRefusal {
  return new HostRefusal({
    code: 'too-large',
    message: `One change of ${bytes} bytes is not taken; at most ${largestBodyBytes} bytes are. Do it in parts.`,
    value: bytes,
  });
}
