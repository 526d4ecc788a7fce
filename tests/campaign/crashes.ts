/** F13: the page crashes, runs out of memory or hangs, or the whole program is killed, with a form half written. */
import { setTimeout as pause } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { buildIfNeeded, siteFolder } from '../../electron/launch/build.ts';
import { KeptProgram, type Life } from '../e2e/support/keptProgram.ts';
import type { Dice } from '../reference/dice.ts';
import { must, mustEqual, type Part } from './part.ts';

const crashes = ['crash', 'memory', 'hang', 'browser', 'both'] as const;
type Crash = (typeof crashes)[number];

/** Forms that a person fills over minutes, how each is opened, and a field of it. */
const forms = [
  { place: '#/catalog', open: 'Add shelf', field: 'Name of the shelf' },
  { place: '#/catalog', open: 'Add item', field: /^Name/ },
  { place: '#/sites', open: 'Add site', field: /^Notes/ },
  { place: '#/', open: 'Begin a task…', field: /^Name/ },
] as const;

/** Texts as people write them, and as no field expects them. */
const texts = ['Spare case of the second crew', 'Größe ½, 3/8" – “quoted”', '<b>not bold</b> & more', 'ראשון · 二番'];

/** So long after the last key an entry is kept; what was typed within it is lost with the page. */
const keptMs = 300;

class Crashing {
  private readonly program: KeptProgram;
  private readonly pages: WeakMap<object, Page> = new WeakMap();

  constructor(program: KeptProgram) {
    this.program = program;
  }

  /** A shelf, so that there is somewhere to add items to. */
  async begin(): Promise<void> {
    const page = await this.opened(await this.program.start(siteFolder), '#/catalog');
    await page.getByRole('button', { name: 'Add shelf' }).first().click();
    await page.getByLabel('Name of the shelf').fill('Shop');
    await page.locator('form').getByRole('button', { name: 'Add shelf' }).click();
    await page
      .getByRole('contentinfo')
      .getByText(/^Saved /)
      .waitFor();
  }

  async trial(n: number, chance: Dice): Promise<void> {
    const crash = crashes[n % crashes.length] ?? 'crash';
    const { open, field, place } = forms[Math.floor(n / crashes.length) % forms.length] ?? forms[0];
    const text = `${chance.pick(texts)} ${chance.whole(0, 1e6)}`;
    const page = await this.opened(await this.program.start(siteFolder), place);
    await page.getByRole('button', { name: open, exact: true }).first().click();
    await page.locator('form').getByLabel(field).fill(text);
    await pause(2 * keptMs + chance.whole(0, 400));
    await this.strike(crash, page, n < crashes.length ? 60_000 : 2_000);

    const next = await this.opened(await this.program.start(siteFolder), place);
    await next.getByRole('button', { name: open, exact: true }).first().click();
    const found = await next.locator('form').getByLabel(field).inputValue();
    mustEqual(found, text, 'lost', `what was typed before: ${crash}`);
    const said = next.getByText('Entries that were not saved are back.');
    await said.waitFor({ timeout: 10_000 });
    // Given up by a person, it stays gone.
    await next.locator('form').getByRole('button', { name: 'Leave' }).click();
    await next.getByRole('dialog').getByRole('button', { name: 'Leave without saving' }).click();
    await next.locator('form').waitFor({ state: 'detached' });
    await next.getByRole('button', { name: open, exact: true }).first().click();
    const again = await next.locator('form').getByLabel(field).inputValue();
    must(again === '', 'undetected', `a draft that was given up came back: ${again}`);
    await next.locator('form').getByRole('button', { name: 'Leave' }).click();
  }

  /** A page that crashed stays crashed: the person opens another. */
  private async opened({ browser, page }: Life, place: string): Promise<Page> {
    const now = this.pages.get(browser) ?? page;
    await now.goto(`${this.program.address}${place}`);
    await now.getByRole('contentinfo').waitFor({ timeout: 30_000 });
    this.pages.set(browser, now);
    return now;
  }

  private async strike(crash: Crash, page: Page, hangMs: number): Promise<void> {
    if (crash === 'browser') return await this.program.killBrowser();
    if (crash === 'both') return await this.program.killBoth();
    const { browser } = await this.program.start(siteFolder);
    if (crash === 'hang') {
      void page.evaluate(hang).catch(() => undefined);
      await pause(hangMs);
    } else {
      const crashed = new Promise<void>((resolve) => page.on('crash', () => resolve()));
      if (crash === 'memory') void page.evaluate(exhaust).catch(() => undefined);
      else void (await page.context().newCDPSession(page)).send('Page.crash').catch(() => undefined);
      await crashed;
    }
    this.pages.set(browser, await browser.context.newPage());
    // A page that hangs is not asked whether it may be closed.
    await Promise.race([page.close({ runBeforeUnload: false }), pause(5_000)]).catch(() => undefined);
  }
}

function hang(): void {
  for (;;) Math.sqrt(2);
}

function exhaust(): void {
  const held: number[][] = [];
  for (;;) held.push(Array.from({ length: 100_000 }, (_, at) => at + Math.sqrt(at)));
}

export const crashesWithForm: Part = {
  of: 'F13',
  fault:
    'the page crashes, has no memory left or hangs (once for 60 s), the browser or everything is killed, a form half written',
  trials: 50,
  async open() {
    await buildIfNeeded();
    const program = await KeptProgram.inNewFolder({ heapMb: 160 });
    const crashing = new Crashing(program);
    await crashing.begin();
    return { trial: (n, chance) => crashing.trial(n, chance), close: () => program.end() };
  },
};
