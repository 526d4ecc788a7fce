/** F10: two windows and two processes at once. */
import type { Page } from 'playwright-core';
import { nativeVersion, knownVersion } from '../../renderer/store/copy/workingCopy.ts';
import { deedOf, setUp } from '../e2e/support/burst/acts.ts';
import { buildBurstSite } from '../e2e/support/burstSite.ts';
import { digestOf } from '../e2e/support/digest.ts';
import { KeptProgram } from '../e2e/support/keptProgram.ts';
import { must, mustEqual, type Part, type Rig } from './part.ts';
import { plainScript } from './support/plainScript.ts';
import { scratch } from './support/scratch.ts';
import { shelfJournal } from './support/shelves.ts';
import { startWriting, writerSource } from './writerKills.ts';

/** Two windows of one running program, both open. */
async function withWindows(trial: (windows: [Page, Page], n: number) => Promise<void>): Promise<Rig> {
  const own = scratch();
  const program = await KeptProgram.inNewFolder();
  const { page: first, browser } = await program.start(await buildBurstSite(own.folder()));
  const second = await browser.context.newPage();
  const windows: [Page, Page] = [first, second];
  for (const page of windows) await openIn(page, program.address);
  const deed = deedOf(0);
  if (deed.kind !== 'act') throw new Error('the first deed adds one item');
  for (const act of [setUp, deed.act]) await first.evaluate((one) => window.burst.commit(one), act);
  return {
    async trial(n) {
      await trial(windows, n);
    },
    async close() {
      await program.end();
      own.clear();
    },
  };
}

/** What hindered it is told where it does not. */
async function mustOpen(page: Page, which: string): Promise<void> {
  const opening = await page.evaluate(() => window.burst.open());
  must(opening.kind === 'ready', 'broken', `${which}: ${JSON.stringify(opening)}`);
}

async function openIn(page: Page, address: string): Promise<void> {
  await page.goto(address);
  await mustOpen(page, 'a window at first');
}

const times = 30;

/** Each trial 30 from each window: 600 over ten. */
export const countedTwice: Part = {
  of: 'F10',
  fault: 'two windows count one number up at once, 30 times each',
  trials: 10,
  open: () =>
    withWindows(async (windows) => {
      const [first] = windows;
      const look = async (): Promise<{ seq: number; onHand: number; rev: number }> => {
        const { seq, records } = await first.evaluate(() => window.burst.replay());
        const item = records.items.find(({ id }) => id === 'one-0');
        const onHand = item !== undefined && 'onHand' in item ? (item.onHand ?? 0) : 0;
        return { seq, onHand, rev: item?.rev ?? 0 };
      };
      const before = await look();
      const counting = (page: Page) => page.evaluate((count) => window.burst.countUp('one-0', count), times);
      const asked = await Promise.all(windows.map(counting));
      const after = await look();
      const by = 2 * times;
      const wanted = { seq: before.seq + by, onHand: before.onHand + by, rev: before.rev + by };
      mustEqual(after, wanted, 'lost', `asked ${asked.join(' and ')} times`);
    }),
};

/** One window builds the working copy anew while the other has it open, and in every other trial writes: then it is refused. */
export const rebuiltWhileOpen: Part = {
  of: 'F10',
  fault: 'one window builds the working copy again while the other is open, or writing',
  trials: 10,
  open: () =>
    withWindows(async ([builder, other], n) => {
      const writes = n % 2 === 1;
      await (writes ? other : builder).evaluate(() => window.burst.writeHere());
      const writing = writes ? other.evaluate(() => window.burst.countUp('one-0', 8)) : Promise.resolve(0);
      const built = await builder.evaluate(() =>
        window.burst.rebuild().then(
          ({ kind }) => kind as string,
          (error: unknown) => String(error),
        ),
      );
      await writing;
      if (writes) must(/Another window/.test(built), 'undetected', `built beside a window that writes: ${built}`);
      else mustEqual(built, 'ready', 'broken', 'the window that builds');
      for (const page of [builder, other]) {
        await page.reload();
        await mustOpen(page, 'a window afterwards');
        const journal = await page.evaluate(() => window.burst.replay());
        const kept = await page.evaluate(() => window.burst.read());
        mustEqual(digestOf(kept), digestOf(journal.records), 'lost', 'what a window shows and what the journal has');
      }
    }),
};

/** Another tab brings the database to a newer version: the old window may not write a row any more. */
export const upgradedWhileOpen: Part = {
  of: 'F10',
  fault: 'the database is brought to a newer version under an open window',
  trials: 10,
  async open() {
    const own = scratch();
    const site = await buildBurstSite(own.folder());
    return {
      async trial(n) {
        const program = await KeptProgram.inNewFolder();
        try {
          const { page, browser } = await program.start(site);
          await openIn(page, program.address);
          await page.evaluate((one) => window.burst.commit(one), setUp);
          const before = await page.evaluate(() => window.burst.replay());
          const newer = await browser.context.newPage();
          await newer.goto(`${program.address}favicon.ico`);
          await newer.evaluate(bringUp, nativeVersion(knownVersion + 1 + (n % 5)));
          const deed = deedOf(0);
          const late = await page.evaluate(
            (one) =>
              window.burst.commit(one).then(
                () => 'saved',
                () => 'not saved',
              ),
            deed.kind === 'act' ? deed.act : setUp,
          );
          mustEqual(late, 'not saved', 'undetected', 'a change made by the window that was overtaken');
          const rows = await newer.evaluate(itemsIn);
          mustEqual(rows, before.records.items.length, 'undetected', 'rows written by the window that was overtaken');
        } finally {
          await program.end();
        }
      },
      close: () => own.clear(),
    };
  },
};

function bringUp(version: number): Promise<void> {
  return new Promise((resolve, reject) => {
    const opening = indexedDB.open('bagwright-1', version);
    opening.addEventListener('error', () => reject(opening.error ?? new Error('not opened')));
    opening.addEventListener('success', () => {
      opening.result.close();
      resolve();
    });
  });
}

function itemsIn(): Promise<number> {
  return new Promise((resolve, reject) => {
    const opening = indexedDB.open('bagwright-1');
    opening.addEventListener('error', () => reject(opening.error ?? new Error('not opened')));
    opening.addEventListener('success', () => {
      const counting = opening.result.transaction('items').objectStore('items').count();
      counting.addEventListener('success', () => {
        opening.result.close();
        resolve(counting.result);
      });
    });
  });
}

/** Real processes: one has the journal, and as many as five more want it, before and after it is killed. */
export const secondProcess: Part = {
  of: 'F10',
  fault: 'a second process on the same journal, and several that find its holder dead',
  trials: 20,
  async open() {
    const own = scratch();
    const writer = await plainScript(writerSource, own.folder());
    return {
      async trial(_n, chance) {
        const within = own.folder();
        const { folder, close } = shelfJournal(within);
        close();
        const first = startWriting(writer, folder);
        const started = [first];
        const start = (): Promise<string> => {
          const one = startWriting(writer, folder);
          started.push(one);
          return one.first;
        };
        try {
          mustEqual(await first.first, 'open 0', 'broken', 'the first process');
          const refusal = await start();
          const words = `refused Another Bagwright (process ${first.child.pid}) has these data open`;
          must(refusal.startsWith(words), 'undetected', `the second process: ${refusal}`);
          first.child.kill('SIGKILL');
          await first.ended;
          const heirs = await Promise.all(Array.from({ length: chance.whole(2, 5) }, start));
          const writers = heirs.filter((one) => /^open \d+$/.test(one));
          mustEqual(writers.length, 1, 'undetected', `processes that write: ${heirs.join('; ')}`);
        } finally {
          for (const { child } of started) child.kill('SIGKILL');
          await Promise.all(started.map(({ ended }) => ended));
        }
      },
      close: () => own.clear(),
    };
  },
};
