/** F1: writing broken off in the whole program: its browser, its server or both killed, or its page loaded again. */
import { setTimeout as pause } from 'node:timers/promises';
import { itemsAfter, setUp } from '../e2e/support/burst/acts.ts';
import { buildBurstSite } from '../e2e/support/burstSite.ts';
import { digestOf } from '../e2e/support/digest.ts';
import { KeptProgram, type Life } from '../e2e/support/keptProgram.ts';
import type { Dice } from '../reference/dice.ts';
import { must, mustEqual, type Part, type Rig } from './part.ts';
import { scratch } from './support/scratch.ts';

const victims = ['browser', 'server', 'both'] as const;
type Victim = (typeof victims)[number];

/** One program over many lives, and what it was told is saved. */
class Writer {
  /** Numbers of the newest act that began and of the newest that the store called saved. */
  private told = { began: -1, saved: -1 };
  /** The journal's sequence before the first act, and the number of the next act. */
  private base = 0;
  private acts = 0;
  private readonly heard = new Set<unknown>();
  private readonly site: string;
  private readonly program: KeptProgram;
  private life: Life | null = null;

  constructor(site: string, program: KeptProgram) {
    this.site = site;
    this.program = program;
  }

  async begin(): Promise<void> {
    this.life = await this.program.start(this.site);
    mustEqual(await this.openPage(), 'ready', 'broken', 'the program at first');
    this.base = await this.life.page.evaluate((act) => window.burst.commit(act), setUp);
  }

  private get page(): Life['page'] {
    if (this.life === null) throw new Error('nothing runs');
    return this.life.page;
  }

  private async openPage(): Promise<string> {
    const { browser, page } = this.life ?? {};
    if (browser !== undefined && !this.heard.has(browser)) {
      this.heard.add(browser);
      const { told } = this;
      await browser.context.exposeBinding('actBegins', (_source, n: number) => void (told.began = n));
      await browser.context.exposeBinding('actSaved', (_source, n: number) => void (told.saved = n));
    }
    await page?.goto(this.program.address);
    return (await this.page.evaluate(() => window.burst.open())).kind;
  }

  /** Begins a burst of acts and comes back in the middle of it; `writing` tells how the burst ends. */
  private async inTheMidst(afterMs: number): Promise<{ writing: Promise<'ended' | 'broke off'> }> {
    this.told.began = this.acts - 1;
    this.told.saved = this.acts - 1;
    const writing = this.page
      .evaluate((first) => window.burst.burst(first), this.acts)
      .then(
        () => 'ended' as const,
        () => 'broke off' as const,
      );
    // Counted from the first act on: before it there is nothing to lose.
    while (this.told.began < this.acts) await pause(1);
    await pause(afterMs);
    return { writing };
  }

  async kill(victim: Victim, afterMs: number): Promise<void> {
    const { writing } = await this.inTheMidst(afterMs);
    if (victim === 'browser') await this.program.killBrowser();
    else if (victim === 'both') await this.program.killBoth();
    else {
      await this.program.killServer();
      mustEqual(await writing, 'broke off', 'undetected', 'an act whose server is gone');
      const { kind } = await this.page.evaluate(() => window.burst.saving());
      must(kind !== 'saved', 'undetected', 'Saved is said without a server');
    }
    await writing;
    this.life = await this.program.start(this.site);
  }

  /** The page as a person loads it again: no word to the store beforehand, and the same tab, browser and server after. */
  async reload(afterMs: number): Promise<boolean> {
    const { writing } = await this.inTheMidst(afterMs);
    await this.page.reload();
    mustEqual(await writing, 'broke off', 'broken', 'a burst whose page was loaded again');
    return this.told.began > this.told.saved;
  }

  /** What is kept after a fault, against what was called saved before it. */
  async findAgain(where: string): Promise<void> {
    const { began, saved } = this.told;
    mustEqual(await this.openPage(), 'ready', 'broken', where);
    const journal = await this.page.evaluate(() => window.burst.replay());
    const kept = await this.page.evaluate(() => window.burst.read());
    this.acts = journal.seq - this.base;
    const what = `${where}: ${this.acts} acts kept; began ${began}, saved ${saved}`;
    must(this.acts >= saved + 1, 'lost', what);
    must(this.acts <= began + 1, 'undetected', what);
    const items = new Map(kept.items.map(({ id, name }) => [id, name ?? '']));
    mustEqual(sorted(items), sorted(itemsAfter(this.acts)), 'partial', where);
    mustEqual(digestOf(kept), digestOf(journal.records), 'partial', `${where}: the screens and the journal`);
  }

  get next(): number {
    return this.acts;
  }
}

const sorted = (items: Map<string, string>): [string, string][] => [...items].toSorted(([a], [b]) => (a < b ? -1 : 1));

async function withWriter(trial: (writer: Writer, n: number, chance: Dice) => Promise<void>): Promise<Rig> {
  const own = scratch();
  const [site, program] = await Promise.all([buildBurstSite(own.folder()), KeptProgram.inNewFolder()]);
  const writer = new Writer(site, program);
  await writer.begin();
  return {
    trial: (n, chance) => trial(writer, n, chance),
    async close() {
      await program.end();
      own.clear();
    },
  };
}

export const programKills: Part = {
  of: 'F1',
  fault: 'kill -9 of the browser, the server or both in a burst of writes',
  trials: 200,
  open: () =>
    withWriter(async (writer, n, chance) => {
      const victim = victims[n % victims.length] ?? 'both';
      const [afterMs, first] = [chance.whole(0, 250), writer.next];
      await writer.kill(victim, afterMs);
      await writer.findAgain(`${victim} killed ${afterMs} ms into act ${first} ff.`);
    }),
};

export const pageReloads: Part = {
  of: 'F1',
  fault: 'the page loaded again in the middle of a save',
  trials: 100,
  open: () =>
    withWriter(async (writer, _n, chance) => {
      const [afterMs, first] = [chance.whole(0, 60), writer.next];
      await writer.reload(afterMs);
      await writer.findAgain(`loaded again ${afterMs} ms into act ${first} ff.`);
    }),
};
