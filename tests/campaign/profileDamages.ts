/** F7 and F15: the browser's files damaged, gone or another's; the program at another address or with another folder. */
import { mkdirSync, renameSync, rmSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { buildIfNeeded, siteFolder } from '../../electron/launch/build.ts';
import { fillOf, setUp } from '../e2e/support/burst/acts.ts';
import { buildBurstSite } from '../e2e/support/burstSite.ts';
import { digestOf } from '../e2e/support/digest.ts';
import { KeptProgram } from '../e2e/support/keptProgram.ts';
import { damageNames, damages } from '../e2e/support/profileDamage.ts';
import { pointedAt, rawRecords } from '../e2e/support/rawRecords.ts';
import { freePort } from '../e2e/support/servedProgram.ts';
import type { Dice } from '../reference/dice.ts';
import { must, mustEqual, type Part, type Rig } from './part.ts';
import { scratch, type Scratch } from './support/scratch.ts';

/** Long enough in words that part of them has left the browser's log for its tables, as it does every 4 MB. */
const filled = { count: 1500, words: 200 };
/** Three times what the program gives itself: others share the machine with it here. */
const pageMs = 30_000;
const rebuild = 'Build the working copy again';

interface Whole {
  digest: string;
  items: number;
}

class Damaged {
  readonly program: KeptProgram;
  private readonly template: string;
  private whole: Whole = { digest: '', items: 0 };

  private constructor(program: KeptProgram, template: string) {
    this.program = program;
    this.template = template;
  }

  static async filled(own: Scratch): Promise<Damaged> {
    await buildIfNeeded();
    const burst = await buildBurstSite(own.folder());
    const program = await KeptProgram.inNewFolder();
    const made = new Damaged(program, own.folder());
    const { page } = await program.start(burst);
    await page.goto(program.address);
    await page.evaluate(() => window.burst.open());
    for (const act of [setUp, ...fillOf(filled.count, filled.words)])
      await page.evaluate((one) => window.burst.commit(one), act);
    // Edits and undos too: a copy that lost only those holds as many records as it should.
    await page.evaluate(() => window.burst.burst(0, 59));
    const records = await page.evaluate(() => window.burst.read());
    made.whole = { digest: digestOf(records), items: records.items.length };
    await program.stop();
    program.copyTo(made.template);
    return made;
  }

  /** Opens the real window; where it does not show the work, it says why, and is mended by its own button. */
  async openAndMend(where: string, { button = rebuild, program = this.program } = {}): Promise<'work' | 'recovery'> {
    const { page } = await program.start(siteFolder);
    const shows = await opened(page, program.address);
    if (shows === 'recovery') {
      await page.getByRole('button', { name: button }).first().click();
      if (button.endsWith('…'))
        await page
          .getByRole('dialog')
          .getByRole('button', { name: button.slice(0, -1) })
          .click();
      await page.getByRole('contentinfo').waitFor({ timeout: 60_000 });
    }
    await this.mustBeWhole(page, `${where}, ${shows}`);
    return shows;
  }

  private async mustBeWhole(page: Page, where: string): Promise<void> {
    const { items, digest } = this.whole;
    const shown = page.getByRole('region', { name: 'Catalog' }).getByText(`${items} shown`);
    const seen = await shown.waitFor({ timeout: pageMs }).then(
      () => true,
      () => false,
    );
    must(seen, 'undetected', `${where}: the catalog does not show its ${items} items`);
    const records = await rawRecords(page, pointedAt(this.program.folders.journal));
    mustEqual(digestOf(records), digest, 'lost', where);
  }

  /** Each trial from the same folders, and nothing running behind it. */
  rig(own: Scratch, trial: (n: number, chance: Dice) => Promise<void>): Rig {
    return {
      trial: async (n, chance) => {
        this.program.goBackTo(this.template);
        await trial(n, chance).finally(() => this.program.killBoth());
      },
      close: async () => {
        await this.program.end();
        own.clear();
      },
    };
  }
}

/** What the window shows within its time: the work, or why not. */
async function opened(page: Page, address: string): Promise<'work' | 'recovery'> {
  await page.goto(`${address}#/catalog`);
  const recovery = page.locator('main.bw-hindered');
  await recovery.or(page.getByRole('contentinfo')).first().waitFor({ timeout: pageMs });
  return (await recovery.isVisible()) ? 'recovery' : 'work';
}

/** Trial n: the damage number n mod 8. */
export const profileDamages: Part = {
  of: 'F7',
  fault: `the browser’s files: ${damageNames.join(', ')}`,
  trials: damageNames.length * 10,
  async open() {
    const own = scratch();
    const damaged = await Damaged.filled(own);
    return damaged.rig(own, async (n, chance) => {
      const { program } = damaged;
      const name = damageNames[n % damageNames.length] ?? 'flip ldb';
      const what = damages[name]({ profile: program.folders.browserProfile, port: program.port, dice: chance });
      const first = await damaged.openAndMend(what);
      // Nothing can be in a new profile: to show the work without a word would be to have made it up.
      const emptied = name === 'profile swapped' || name === 'folder deleted';
      must(first === 'recovery' || !emptied, 'undetected', `${what}: ${first}`);
      // Some damage is met only when the browser opens its files for the second time; the first round asks one such.
      if (n < damageNames.length && name !== 'truncate log') return;
      await program.stop();
      await damaged.openAndMend(`${what}, second start`);
    });
  },
};

/** Trial n: another port, another profile, another folder of the journal. */
export const elsewhere: Part = {
  of: 'F15',
  fault: 'another port and so another origin, another profile, another folder of the journal',
  trials: 12,
  async open() {
    const own = scratch();
    const damaged = await Damaged.filled(own);
    return damaged.rig(own, async (n) => {
      const kind = (['port', 'profile', 'journal'] as const)[n % 3] ?? 'port';
      const shows = await shownElsewhere(kind, damaged, own);
      mustEqual(shows, 'recovery', 'undetected', `what is shown with another ${kind}`);
    });
  },
};

async function shownElsewhere(
  kind: 'port' | 'profile' | 'journal',
  damaged: Damaged,
  own: Scratch,
): Promise<'work' | 'recovery'> {
  const { journal, browserProfile } = damaged.program.folders;
  if (kind === 'port') {
    const program = damaged.program.movedTo(await freePort());
    return await damaged.openAndMend('another port', { program }).finally(() => program.killBoth());
  }
  if (kind === 'profile') {
    renameSync(browserProfile, own.folder());
    mkdirSync(browserProfile, { mode: 0o700 });
    return await damaged.openAndMend('another profile');
  }
  rmSync(journal, { recursive: true });
  return await damaged.openAndMend('another journal', { button: 'Keep what the working copy holds…' });
}
