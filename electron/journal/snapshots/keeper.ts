/** Snapshots of one journal: made, listed, read, copied to a second folder, and cleared away when they have had their time. */
import { join } from 'node:path';
import {
  readSnapshotName,
  type FurtherSnapshots,
  type KeptSnapshot,
  type MeantThing,
  type SnapshotFolder,
  type SnapshotList,
  type SnapshotPage,
  type SnapshotReason,
} from '../../../shared-types/snapshot.ts';
import { codeOf, realDisk, statOf, type Disk } from '../../files/disk.ts';
import { systemClock, type Clock } from '../clock.ts';
import type { Standing } from './fold.ts';
import { linesAt } from './fold.ts';
import { baseIn, faultOfName, readSnapshot, type Lines, type ReadSnapshot, type SnapshotBase } from './format.ts';
import { HostRefusal } from '../../site/refusal.ts';
import { onDisk, wordsOfDisk } from '../diskRefusal.ts';
import { oneAtATime } from '../../oneAtATime.ts';
import { faultsKnown } from './faultsKnown.ts';
import { byEntryThenTime, furtherKeeper, seqOf, type EndOfJournal } from './further.ts';
import { furtherFile, heldFile, secondFile } from './notes.ts';
import { pastTheirTime } from './rotate.ts';
import { shrinkOf } from './shrink.ts';
import { copySnapshot, writeSnapshot } from './writeSnapshot.ts';

/** Where a journal stands, and where its lines lie. */
export interface StandingJournal extends Standing {
  place: string;
  deviceId: string;
}

export interface KeeperOptions {
  /** Beside the journal. */
  folder: string;
  journal: () => Promise<StandingJournal>;
  disk?: Disk;
  clock?: Clock;
}

export interface SnapshotKeeper {
  list(): Promise<SnapshotList>;
  /** @returns null where nothing has been written since the newest, and it is only made from time to time, or one of this moment was made for the same reason */
  make(why: SnapshotReason): Promise<KeptSnapshot | null>;
  read(request: { name: string; from: number }): Promise<SnapshotPage>;
  /** The folder is tried at once. @throws HostRefusal where it does not take a file */
  setSecond(folder: string | null): Promise<void>;
  /** What is missing since was meant to go: the next one clears away again; or those that go further now are named no more. */
  meant(asked: MeantThing): Promise<void>;
  /** Those that go further than the journal, and are not meant to. Writes nothing. */
  further(end: EndOfJournal): Promise<FurtherSnapshots | null>;
  /** The same, and notes which they are: a journal that goes on without them comes past their numbers. */
  furtherAtOpening(end: EndOfJournal): Promise<FurtherSnapshots | null>;
}

const notThere = 'it is not there, or not the one that was chosen: put it back, or choose it again';

/** So much of the records goes into one answer: a window takes it in without a halt. */
const pageBytes = 1024 * 1024;

export function snapshotKeeper({
  folder,
  journal,
  disk = realDisk,
  clock = systemClock,
}: KeeperOptions): SnapshotKeeper {
  const inTurn = oneAtATime();
  const held = heldFile(folder, disk);
  const second = secondFile(folder, disk);
  const noted = furtherFile(folder, disk);
  const faults = faultsKnown(disk);
  /** The one that was read last, for the next page of it. */
  let open: { name: string; read: ReadSnapshot } | null = null;

  const allIn = (of: string): Promise<string[]> =>
    disk.readdir(of).catch((cause: unknown) => {
      if (codeOf(cause) === 'ENOENT') return [];
      throw cause;
    });
  const namesIn = async (of: string): Promise<string[]> =>
    (await allIn(of)).filter((name) => readSnapshotName(name) !== null).toSorted();
  const otherNames = async (): Promise<string[]> =>
    (await allIn(folder)).filter((name) => /\.snapshot/i.test(name) && readSnapshotName(name) === null).toSorted();

  const wholeOne = async <Read extends object>(
    name: string,
    readIn: (bytes: Buffer) => Read | { reason: string },
  ): Promise<Read> => {
    const paths = [folder, await second.get()].flatMap((of) => (of === null ? [] : [join(of, name)]));
    let reason = 'it is not there';
    for (const path of paths) {
      const bytes = await disk.readFile(path).catch(() => null);
      const read = bytes === null ? { reason } : (faultOfName(name, bytes) ?? readIn(bytes));
      if (!('reason' in read)) return read;
      ({ reason } = read);
    }
    throw new HostRefusal({ code: 'unreadable-file', message: `${name} cannot be gone by: ${reason}`, file: name });
  };

  /** The newest that is whole and of this journal, to begin from; what is not is passed over. */
  const newestWhole = async (standing: StandingJournal): Promise<SnapshotBase | null> => {
    const { found, meant } = await noted.get(standing);
    const isOwn = (name: string): boolean =>
      seqOf(name) <= standing.seq && !found.includes(name) && !meant.includes(name);
    const bySeq = (await namesIn(folder)).filter(isOwn).toSorted(byEntryThenTime);
    for (const name of bySeq.slice(0, 3)) {
      const read = await wholeOne(name, baseIn).catch(() => null);
      if (read !== null) return read;
    }
    return null;
  };

  const further = furtherKeeper({
    async names(withSecond) {
      const other = withSecond ? await second.get() : null;
      return [...(await namesIn(folder)), ...(other === null ? [] : await namesIn(other).catch(() => []))];
    },
    read: (name) => wholeOne(name, baseIn).catch(() => null),
    noted,
  });

  /** Done, undone and done again, a change needs no second one of the same moment. */
  const isThere = async ({ seq, hash }: Standing, why: SnapshotReason): Promise<boolean> => {
    for (const name of await namesIn(folder)) {
      if (seqOf(name) !== seq || readSnapshotName(name)?.why !== why) continue;
      const read = await wholeOne(name, baseIn).catch(() => null);
      if (read?.head.hash === hash) return true;
    }
    return false;
  };

  const linesNow = async (standing: StandingJournal, from: SnapshotBase | null): Promise<Lines> => {
    const { place } = standing;
    if (from === null || from.head.deviceId !== standing.deviceId) return await linesAt(place, standing, null, disk);
    // One of an earlier journal goes on nowhere in this one: then every line is read.
    return await linesAt(place, standing, from, disk).catch(() => linesAt(place, standing, null, disk));
  };

  const copyToSecond = async (name: string): Promise<string | null> => {
    const to = await second.get();
    if (to === null) return null;
    if (!(await second.isThere(to))) return notThere;
    try {
      await copySnapshot(await disk.readFile(join(folder, name)), to, name, disk);
      return null;
    } catch (cause) {
      return wordsOfDisk(cause);
    }
  };

  const clearAway = async (of: string, names: readonly string[], seq: number): Promise<string[]> => {
    const gone = new Set(pastTheirTime(names, seq));
    for (const name of gone) await disk.rm(join(of, name), { force: true });
    return names.filter((name) => !gone.has(name));
  };

  /** Only what was copied there by this one: what others keep there is theirs. */
  const clearSecond = async (of: string, made: string, seq: number): Promise<void> => {
    const copied = [...(await second.copied()), made];
    const isHeld = (await held.get()) !== null;
    await second.noteCopied(isHeld ? copied : await clearAway(of, copied, seq));
  };

  const makeNow = async (why: SnapshotReason): Promise<KeptSnapshot | null> => {
    const standing = await journal();
    const before = await newestWhole(standing);
    const isKept = before?.head.seq === standing.seq && before.head.hash === standing.hash;
    if (isKept && (why === 'half-hour' || why === 'leaving')) return null;
    if (isKept && why.startsWith('before-') && (await isThere(standing, why))) return null;
    const lines = await linesNow(standing, before);
    const { seq, hash, deviceId } = standing;
    const { utc } = clock();
    const name = await writeSnapshot(folder, { seq, hash, deviceId, utc, why }, lines, disk);
    const fault = await copyToSecond(name);
    await second.note(fault);
    if (before !== null) {
      const counts = Object.fromEntries([...lines].map(([table, own]) => [table, own.length]));
      const shrunk = shrinkOf(before.head.counts, counts);
      if (shrunk !== null) await held.set(shrunk);
    }
    if ((await held.get()) === null) await clearAway(folder, await namesIn(folder), seq);
    const other = await second.get();
    if (other !== null && fault === null) await clearSecond(other, name, seq).catch(() => undefined);
    const places: SnapshotFolder[] = other === null || fault !== null ? ['here'] : ['here', 'second'];
    // As the list says it: a name has whole seconds.
    const named = readSnapshotName(name) ?? { utc, seq, why };
    const { size: bytes } = await statOf(join(folder, name), disk);
    return { name, bytes, places, damaged: [], further: false, ...named };
  };

  const listNow = async (): Promise<SnapshotList> => {
    const other = await second.get();
    const byPlace = [
      { place: 'here' as const, of: folder, names: new Set(await namesIn(folder)) },
      ...(other === null
        ? []
        : [{ place: 'second' as const, of: other, names: new Set(await namesIn(other).catch(() => [])) }]),
    ];
    const { found, meant } = await noted.get(await journal().catch(() => null));
    // They are of a journal that was there before: the older ones, whatever their number.
    const isOther = ({ name }: KeptSnapshot): boolean => found.includes(name) || meant.includes(name);
    const snapshots: KeptSnapshot[] = [];
    for (const name of new Set(byPlace.flatMap(({ names }) => [...names]))) {
      const read = readSnapshotName(name) ?? { utc: '', seq: 0, why: 'asked' as const };
      const one: KeptSnapshot = { name, bytes: 0, places: [], damaged: [], further: found.includes(name), ...read };
      for (const { place, of, names } of byPlace) {
        if (!names.has(name)) continue;
        const { bytes, reason } = await faults.of(join(of, name));
        one.bytes = Math.max(one.bytes, bytes);
        if (reason === null) one.places.push(place);
        else one.damaged.push({ place, reason });
      }
      snapshots.push(one);
    }
    return {
      snapshots: snapshots.toSorted(
        (one, next) => Number(isOther(one)) - Number(isOther(next)) || byEntryThenTime(one.name, next.name),
      ),
      otherNames: await otherNames(),
      folder,
      second: other === null ? null : { folder: other, fault: await faultOfSecond(other) },
      shrunk: await held.get(),
    };
  };

  const faultOfSecond = async (other: string): Promise<string | null> =>
    (await second.isThere(other)) ? second.fault() : notThere;

  const readNow = async ({ name, from }: { name: string; from: number }): Promise<SnapshotPage> => {
    if (open?.name !== name) open = { name, read: await wholeOne(name, readSnapshot) };
    const { head, tables } = open.read;
    const all = [...tables].flatMap(([table, records]) =>
      [...records.values()].map((record) => [table, record] as const),
    );
    const page: SnapshotPage = { head, records: [], next: null };
    let bytes = 0;
    for (let at = from; at < all.length; at += 1) {
      const one = all[at];
      if (one === undefined) break;
      bytes += JSON.stringify(one).length;
      if (page.records.length > 0 && bytes > pageBytes) {
        page.next = at;
        break;
      }
      page.records.push([one[0], one[1]]);
    }
    if (page.next === null) open = null;
    return page;
  };

  return {
    list: () => inTurn(() => onDisk('The snapshots cannot be listed', listNow)),
    make: (why) => inTurn(() => onDisk('No snapshot was made', () => makeNow(why))),
    read: (request) => inTurn(() => onDisk('The snapshot cannot be read', () => readNow(request))),
    setSecond: (to) =>
      inTurn(async () => {
        await second.set(to);
      }),
    meant: (asked) =>
      inTurn(() =>
        onDisk('That it is meant was not noted', async () =>
          asked.what === 'less-is-kept' ? await held.set(null) : await further.meant(await journal(), asked.through),
        ),
      ),
    further: (end) => inTurn(() => further.find(end, false)),
    furtherAtOpening: (end) => inTurn(() => further.find(end, true)),
  };
}
