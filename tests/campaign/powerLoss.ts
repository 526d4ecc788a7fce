/** F4: the power goes in the middle of writing. What was synced is there, and what is left of the rest is told. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { readSnapshot } from '../../electron/journal/snapshots/format.ts';
import { snapshotKeeper } from '../../electron/journal/snapshots/keeper.ts';
import type { Appended } from '../../shared-types/journal.ts';
import type { Dice } from '../reference/dice.ts';
import { comes, steadyClock } from '../electron/support/journalParts.ts';
import { must, mustEqual, type Part } from './part.ts';
import { powerDisk, PowerLost, type Grain, type PowerDisk } from './support/powerDisk.ts';
import { scratch } from './support/scratch.ts';
import { always, refusalIn, shelfJournal, type ShelfJournal } from './support/shelves.ts';

/** Small, so that files, checkpoints and their renames come often. */
const small = { segmentBytes: 6_000, checkpointBytes: 5_000 };

interface Written {
  acknowledged: Appended[];
  database: { asked: string; told: string };
  snapshots: string[];
}

/** Entries of all lengths, the pointer moved now and then, snapshots: until the power goes. */
async function work(journal: ShelfJournal, disk: PowerDisk, chance: Dice, done: Written): Promise<void> {
  const keeper = snapshotKeeper({
    folder: snapshotsOf(journal),
    journal: () => journal.standing(),
    disk,
    clock: steadyClock(),
  });
  await journal.open();
  for (let turn = 0; turn < 40; turn += 1) {
    const words = 'x'.repeat(chance.pick([0, 80, 700, 1900]));
    const { length } = done.acknowledged;
    done.acknowledged.push(await journal.add(length + 1, [comes(`s${length}`, `Store ${words}`)]));
    if (chance.chance(0.1)) {
      done.database.asked = `bagwright-${turn + 2}`;
      await journal.setDatabase({ name: done.database.asked }, always);
      done.database.told = done.database.asked;
    }
    if (chance.chance(0.06)) {
      const made = await keeper.make('asked');
      if (made !== null) done.snapshots.push(made.name);
    }
  }
}

const snapshotsOf = ({ folder }: ShelfJournal): string => join(folder, '..', 'snapshots');

/** Nothing is thrown but the loss itself; the program's own words for a failing disk are no answer to it. */
const untilItGoes = (working: Promise<void>): Promise<void> =>
  working.catch((cause: unknown) => {
    if (cause instanceof PowerLost || isRefusal(cause)) return;
    throw cause;
  });
const isRefusal = (cause: unknown): boolean => cause instanceof Error && cause.name === 'HostRefusal';

export const powerLoss: Part = {
  of: 'F4',
  fault: 'the power goes: what was not synced is dropped, cut, zeroed or garbled in sectors of 512 or 4096 bytes',
  trials: 600,
  open() {
    const own = scratch();
    return {
      async trial(n, chance) {
        const grain: Grain = n % 2 === 0 ? 512 : 4096;
        const folder = join(own.folder(), 'journal');
        // Its lock lies in a real folder; everything else in the disk that loses its power.
        mkdirSync(folder);
        const disk = powerDisk();
        const before = shelfJournal('', { ...small, folder, disk });
        const done: Written = {
          acknowledged: [],
          database: { asked: 'bagwright-1', told: 'bagwright-1' },
          snapshots: [],
        };
        disk.goesAt(chance.whole(1, 230));
        await untilItGoes(work(before, disk, chance, done));
        before.close();
        await lookAfter(disk.afterLoss(chance, grain), folder, done);
      },
      close: () => own.clear(),
    };
  },
};

async function lookAfter(
  disk: PowerDisk,
  folder: string,
  { acknowledged, database, snapshots }: Written,
): Promise<void> {
  await disk.mkdir(folder, { mode: 0o700 });
  const journal = shelfJournal('', { ...small, folder, disk });
  try {
    const found = await bytesOfLines(disk, folder);
    const { seq, damage, tail, database: name } = await journal.open();
    // Whatever leaves the files of entries is told, and lies whole in a file of its own.
    const left = found - (await bytesOfLines(disk, folder));
    mustEqual(tail?.bytes ?? 0, left, 'undetected', 'bytes that were moved aside, as they are told');
    if (tail !== null) {
      const aside = await disk.readFile(join(folder, 'entries-1', tail.file));
      mustEqual(aside.length, left, 'lost', 'bytes of an unfinished line in the file they were moved to');
    }
    const wanted = acknowledged.length;
    must(
      seq >= wanted,
      'lost',
      `${wanted} entries were acknowledged, ${seq} are there; ${JSON.stringify({ damage, tail })}`,
    );
    must(seq <= wanted + 1, 'undetected', `${seq} entries of ${wanted} acknowledged and at most one more`);
    const { entries } = await readAll(journal, seq);
    mustEqual(
      entries.slice(0, wanted),
      acknowledged.map(({ hash }) => hash),
      'lost',
      'the hashes of what was acknowledged',
    );
    must(name === database.told || name === database.asked, 'lost', `the database ${name}, told ${database.told}`);
    if (damage !== null) await mustGoOn(journal, seq);
    else await mustTakeNext(journal, seq);
    for (const one of snapshots) {
      const read = readSnapshot(await disk.readFile(join(snapshotsOf(journal), one)));
      must(!('reason' in read), 'lost', `${one}: ${'reason' in read ? read.reason : ''}`);
    }
    // Nothing of a line that was never finished is left behind the last entry without a word.
    const again = await journal.open();
    mustEqual([again.damage, again.tail], [null, null], 'undetected', 'what the second opening finds');
  } finally {
    journal.close();
  }
}

async function bytesOfLines(disk: PowerDisk, folder: string): Promise<number> {
  const entries = join(folder, 'entries-1');
  const names = await disk.readdir(entries).catch(() => []);
  const lines = names.filter((name) => name.endsWith('.jsonl'));
  const sizes = await Promise.all(lines.map(async (name) => (await disk.readFile(join(entries, name))).length));
  return sizes.reduce((sum, size) => sum + size, 0);
}

/** Sectors of anything may look like finished lines: then the end is damaged, and it goes on from the entries before. */
async function mustGoOn(journal: ShelfJournal, seq: number): Promise<void> {
  must((await refusalIn(journal.add(seq + 1))) !== null, 'broken', 'a damaged journal took an entry');
  const { state } = await journal.beginAgain({ keepThrough: seq }, always);
  mustEqual([state.seq, state.damage], [seq, null], 'lost', 'the journal begun again before the damage');
  await mustTakeNext(journal, seq);
}

async function mustTakeNext(journal: ShelfJournal, seq: number): Promise<void> {
  mustEqual((await journal.add(seq + 1)).seq, seq + 1, 'broken', 'the next entry');
}

async function readAll(journal: ShelfJournal, through: number): Promise<{ entries: string[] }> {
  const entries: string[] = [];
  for (let from: number | null = 1; from !== null && entries.length < through;) {
    const page: Awaited<ReturnType<ShelfJournal['read']>> = await journal.read({ from });
    entries.push(...page.entries.map(({ hash }) => hash));
    from = page.next;
  }
  return { entries };
}
