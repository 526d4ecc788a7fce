/** F5 at the window: the disk is full at the n-th write, and no one is told that it was saved. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { fillingDisk, type FillingDisk } from '../e2e/support/fillingDisk.ts';
import { openBuilt, type OpenedBuild } from '../e2e/support/openBuilt.ts';
import { rawRecords } from '../e2e/support/rawRecords.ts';
import { must, mustEqual, type Part } from './part.ts';

declare global {
  interface Window {
    /** Everything that the save state said since it was watched, with when. */
    saidOfSaving?: { text: string; atMs: number }[];
  }
}

/** A machine with nothing else to do says so within a second; where others work on it too, the middle of all is held to it. */
const saidMs = 1000;
const busyMs = 4000;

const strip = (page: Page) => page.getByRole('contentinfo').getByRole('status');
const saved = (page: Page) => strip(page).getByText(/^Saved \d\d:\d\d$/);

async function addShelf(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name: 'Add shelf' }).first().click();
  await page.getByLabel('Name of the shelf').fill(name);
  await page.locator('form').getByRole('button', { name: 'Add shelf' }).click();
}

/** Without a function of its own name: what the page is handed must stand by itself. */
function watchSaving(page: Page): Promise<void> {
  return page.evaluate(() => {
    const status = document.querySelector('.bw-strip [role=status]');
    const said: { text: string; atMs: number }[] = [];
    window.saidOfSaving = said;
    if (status === null) return;
    new MutationObserver(() => {
      said.push({ text: status.textContent ?? '', atMs: performance.now() });
    }).observe(status, { subtree: true, childList: true, characterData: true });
  });
}

function linesOf(folder: string): number {
  const entries = join(folder, 'entries-1');
  const names = readdirSync(entries).filter((name) => name.endsWith('.jsonl'));
  return names.flatMap((name) => readFileSync(join(entries, name), 'utf8').split('\n')).filter((line) => line !== '')
    .length;
}

const shelves = async (page: Page): Promise<string[]> =>
  (await rawRecords(page, 'bagwright-1')).shelves.map(({ name }) => name);

class FullWindow {
  readonly took: number[] = [];
  private readonly built: OpenedBuild;
  private readonly disk: FillingDisk;

  constructor(built: OpenedBuild, disk: FillingDisk) {
    this.built = built;
    this.disk = disk;
  }

  async begin(): Promise<void> {
    const { page, origin } = this.built;
    await page.goto(`${origin}/#/catalog`);
    await addShelf(page, 'Case A');
    await saved(page).waitFor();
  }

  /** One act that meets the full disk, so many times over, until there is room. */
  async refusedThenKept(name: string, fullAt: 'write' | 'datasync', again: number, reload: boolean): Promise<void> {
    const { page, journal } = this.built;
    const [before, kept] = [linesOf(journal), await shelves(page)];
    await watchSaving(page);
    this.disk.fullAt = fullAt;
    await addShelf(page, name);
    await this.mustSayNotSaved(before, kept);
    for (let time = 0; time < again; time += 1) {
      const refused = this.disk.refused;
      const button = page.locator('form').getByRole('button', { name: 'Add shelf' });
      await button.click();
      // The foot goes on saying NOT SAVED meanwhile; the button says when this one too was refused.
      while (this.disk.refused === refused) await pause(5);
      await button.waitFor();
      await this.mustSayNotSaved(before, kept);
    }
    // What was typed stands there still.
    mustEqual(await page.getByLabel('Name of the shelf').inputValue(), name, 'lost', 'what was typed');
    this.disk.fullAt = null;
    await page.getByRole('button', { name: 'Save again' }).click();
    await saved(page).waitFor();
    mustEqual(linesOf(journal), before + 1, 'lost', 'lines once there was room');
    mustEqual((await shelves(page)).toSorted(), [...kept, name].toSorted(), 'lost', 'shelves once there was room');
    if (reload) await this.reload(name);
    else await this.leaveForm();
  }

  private async mustSayNotSaved(lines: number, kept: string[]): Promise<void> {
    const { page, journal } = this.built;
    await strip(page).getByText('NOT SAVED', { exact: true }).waitFor({ timeout: 10_000 });
    const said = await page.evaluate(() => window.saidOfSaving ?? []);
    const text = JSON.stringify(said);
    const [asked, refused] = ['Saving', 'NOT SAVED'].map((word) => said.find((one) => one.text.includes(word))?.atMs);
    if (asked !== undefined && refused !== undefined) this.took.push(refused - asked);
    must((this.took.at(-1) ?? 0) < busyMs, 'broken', `NOT SAVED came after ${this.took.at(-1)} ms: ${text}`);
    must(!said.some((one) => /Saved \d/.test(one.text)), 'undetected', `Saved was said: ${text}`);
    mustEqual(linesOf(journal), lines, 'partial', 'lines of an act that was refused');
    mustEqual(await shelves(page), kept, 'partial', 'what is read after a refusal');
  }

  private async leaveForm(): Promise<void> {
    const { page } = this.built;
    await page.locator('form').getByRole('button', { name: 'Leave' }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Leave without saving' }).click();
    await page.locator('form').waitFor({ state: 'detached' });
  }

  private async reload(name: string): Promise<void> {
    const { page } = this.built;
    await page.reload();
    await page.getByRole('option', { name, exact: true }).first().waitFor({ state: 'attached' });
    await strip(page).getByText('Nothing to save').waitFor();
  }

  async end(): Promise<void> {
    await this.built.close();
    const middle = this.took.toSorted((a, b) => a - b)[this.took.length >> 1];
    must(middle === undefined || middle < saidMs, 'broken', `NOT SAVED came after ${middle} ms in the middle of all`);
  }
}

/** Trial n: at a write or at a sync in turn; every other pair it stays full while the same is asked again. */
export const fullWindow: Part = {
  of: 'F5',
  fault: 'the disk is full at an act of the window, once or while it is asked again: NOT SAVED within a second',
  trials: 200,
  async open() {
    const disk = fillingDisk();
    const window = new FullWindow(await openBuilt({ disk }), disk);
    await window.begin();
    return {
      trial: (n, chance) =>
        window.refusedThenKept(
          `Case ${n} ${chance.whole(0, 1e6)}`,
          n % 2 === 0 ? 'write' : 'datasync',
          n % 4 < 2 ? 0 : chance.whole(1, 3),
          n % 5 === 4,
        ),
      close: () => window.end(),
    };
  },
};
