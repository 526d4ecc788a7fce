/** F5 and F6 on a real file system of 60 MB: filled, made read-only, or its folder taken away, under the running program. */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, renameSync, rmSync, statfsSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { fillOf, itemsAfter, setUp } from '../e2e/support/burst/acts.ts';
import { buildBurstSite } from '../e2e/support/burstSite.ts';
import { digestOf } from '../e2e/support/digest.ts';
import { KeptProgram } from '../e2e/support/keptProgram.ts';
import type { Dice } from '../reference/dice.ts';
import { Loss, must, mustEqual, type Part } from './part.ts';
import { scratch } from './support/scratch.ts';
import { refusalIn, shelfJournal, type ShelfJournal } from './support/shelves.ts';

const ran = (program: string, ...args: string[]): boolean => spawnSync(program, args).status === 0;

let able: boolean | null = null;

/** A file system of one's own takes the right to mount one. */
function whyNoSmallDisk(): string | null {
  if (able === null) {
    const tried = smallDisk(1);
    able = tried !== null;
    tried?.end();
  }
  return able ? null : 'no file system may be mounted here';
}

interface SmallDisk {
  folder: string;
  readOnly(is: boolean): boolean;
  end(): void;
}

function smallDisk(megabytes = 60): SmallDisk | null {
  if (process.platform !== 'linux' || process.getuid?.() !== 0) return null;
  const folder = mkdtempSync(join(tmpdir(), 'bagwright-small-'));
  if (!ran('mount', '-t', 'tmpfs', '-o', `size=${megabytes}m,mode=0700`, 'tmpfs', folder)) {
    rmSync(folder, { recursive: true });
    return null;
  }
  return {
    folder,
    readOnly: (is) => ran('mount', '-o', `remount,${is ? 'ro' : 'rw'}`, folder),
    end() {
      if (!ran('umount', folder)) ran('umount', '-l', folder);
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

function mounted(): SmallDisk {
  const disk = smallDisk();
  if (disk === null) throw new Error('no file system could be mounted');
  return disk;
}

/** All but so many bytes of what is free. */
function fill(folder: string, leaveBytes: number): string {
  const path = join(folder, 'filler');
  const { bavail, bsize } = statfsSync(folder);
  try {
    writeFileSync(path, Buffer.alloc(Math.max(0, Number(bavail) * Number(bsize) - leaveBytes), 1));
  } catch (cause) {
    // The browser took some of it meanwhile: then it is as full as can be.
    if ((cause as NodeJS.ErrnoException).code !== 'ENOSPC') throw cause;
  }
  return path;
}

/** The whole program on the small disk, profile and all: filled in a burst of writes, closed or killed, and started with room again. */
export const filledDisk: Part = {
  of: 'F5',
  fault: 'a real file system of 60 MB filled under the whole program, which is then closed or killed',
  trials: 10,
  notHere: whyNoSmallDisk,
  async open() {
    const own = scratch();
    const site = await buildBurstSite(own.folder());
    return {
      async trial(n, chance) {
        const disk = mounted();
        const program = await KeptProgram.inFolder(join(disk.folder, 'data'));
        try {
          await fillUnder(program, site, disk, { kill: n % 2 === 1, chance });
        } finally {
          await program.killBoth();
          disk.end();
        }
      },
      close: () => own.clear(),
    };
  },
};

async function fillUnder(
  program: KeptProgram,
  site: string,
  disk: SmallDisk,
  { kill, chance }: { kill: boolean; chance: Dice },
): Promise<void> {
  const told = { began: -1, saved: -1 };
  const { page, browser } = await program.start(site);
  await browser.context.exposeBinding('actBegins', (_source, at: number) => void (told.began = at));
  await browser.context.exposeBinding('actSaved', (_source, at: number) => void (told.saved = at));
  await page.goto(program.address);
  await page.evaluate(() => window.burst.open());
  const base = await page.evaluate((act) => window.burst.commit(act), setUp);
  await page.evaluate(() => window.burst.burst(0, 8));
  const filler = fill(disk.folder, chance.whole(0, 40_000));
  const ended = await page
    .evaluate(() => window.burst.burst(9, 400))
    .then(
      () => 'kept all',
      () => 'refused',
    );
  mustEqual(ended, 'refused', 'undetected', `acts on a full disk, saved ${told.saved}`);
  const { kind } = await page.evaluate(() => window.burst.saving()).catch(() => ({ kind: 'gone' }));
  must(kind !== 'saved', 'undetected', 'Saved is said on a full disk');
  if (kill) await program.killBoth();
  else await program.stop();
  rmSync(filler);

  const { page: next } = await program.start(site);
  await next.goto(program.address);
  let opening = await next.evaluate(() => window.burst.open());
  // The browser may have lost its own files with the room; the journal has not.
  if (opening.kind !== 'ready') opening = await next.evaluate(() => window.burst.rebuild());
  mustEqual(opening.kind, 'ready', 'lost', `the program with room again: ${JSON.stringify(opening).slice(0, 300)}`);
  const journal = await next.evaluate(() => window.burst.replay());
  const kept = await next.evaluate(() => window.burst.read());
  const acts = journal.seq - base;
  must(acts >= told.saved + 1, 'lost', `${acts} acts kept, ${told.saved + 1} called saved`);
  must(acts <= told.began + 1, 'undetected', `${acts} acts kept, ${told.began + 1} begun`);
  const names = kept.items.map(({ id, name }) => [id, name ?? '']).toSorted();
  mustEqual(names, [...itemsAfter(acts)].toSorted(), 'partial', 'the items');
  mustEqual(digestOf(kept), digestOf(journal.records), 'partial', 'the screens and the journal');
  const [more] = fillOf(1);
  if (more !== undefined) await next.evaluate((act) => window.burst.commit(act), more);
}

/** Trial n: made read-only before the next start, or the journal’s folder deleted while it is open; then as it was. */
export const takenFolder: Part = {
  of: 'F6',
  fault: 'a real file system made read-only before a start, or the journal’s folder deleted while it is open',
  trials: 40,
  notHere: whyNoSmallDisk,
  open() {
    const disk = mounted();
    return {
      async trial(n, chance) {
        const within = join(disk.folder, `trial-${n}`);
        mkdirSync(within);
        const count = chance.whole(1, 6);
        const journal = shelfJournal(within);
        await journal.open();
        for (let seq = 1; seq <= count; seq += 1) await journal.add(seq);
        await (n % 2 === 0 ? readOnlyStart(disk, journal, count) : deletedFolder(journal, count));
        const next = shelfJournal(within);
        const { seq, damage, tail } = await next.open();
        mustEqual([seq, damage, tail], [count, null, null], 'lost', 'the journal as it was again');
        mustEqual((await next.add(count + 1)).seq, count + 1, 'broken', 'the next entry');
        next.close();
        rmSync(within, { recursive: true, force: true });
      },
      close: () => disk.end(),
    };
  },
};

async function readOnlyStart(disk: SmallDisk, journal: ShelfJournal, count: number): Promise<void> {
  journal.close();
  // The system lets no file system be made read-only while a file of it is open for writing.
  await until(() => disk.readOnly(true), 'the disk could not be made read-only');
  try {
    const next = shelfJournal('', { folder: journal.folder });
    const refusal = await refusalIn(next.open());
    mustEqual(refusal?.code ?? 'opened', 'disk', 'undetected', 'a start on a read-only disk');
    must((await refusalIn(next.add(count + 1))) !== null, 'undetected', 'an entry on a read-only disk');
    next.close();
  } finally {
    disk.readOnly(false);
  }
}

async function deletedFolder(journal: ShelfJournal, count: number): Promise<void> {
  const aside = `${journal.folder}-aside`;
  cpSync(journal.folder, aside, { recursive: true });
  rmSync(journal.folder, { recursive: true });
  const refusal = await refusalIn(journal.add(count + 1));
  must(refusal !== null, 'lost', 'an entry was taken into a deleted file');
  must(/deleted by another program/.test(refusal.message), 'broken', refusal.message);
  // An empty journal says that it is empty; what stands beside it is the window’s to compare.
  mustEqual((await journal.open()).seq, 0, 'undetected', 'the journal opened without its folder');
  journal.close();
  rmSync(journal.folder, { recursive: true, force: true });
  renameSync(aside, journal.folder);
  rmSync(join(journal.folder, 'lock'), { force: true });
}

async function until(holds: () => boolean, otherwise: string): Promise<void> {
  for (let look = 0; look < 100; look += 1) {
    if (holds()) return;
    await pause(20);
  }
  throw new Loss('broken', otherwise);
}
