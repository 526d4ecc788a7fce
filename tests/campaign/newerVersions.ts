/** F12: a newer version has been at work, in the journal or in the working copy; this one neither opens nor changes it. */
import { appendFileSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { seal } from '../../electron/journal/entry.ts';
import { buildIfNeeded, siteFolder } from '../../electron/launch/build.ts';
import { knownVersion, nativeVersion } from '../../renderer/store/copy/workingCopy.ts';
import type { JournalEntry } from '../../shared-types/journal.ts';
import { recordsVersion } from '../../shared-types/records/index.ts';
import { fillOf, setUp } from '../e2e/support/burst/acts.ts';
import { buildBurstSite } from '../e2e/support/burstSite.ts';
import { digestOf } from '../e2e/support/digest.ts';
import { KeptProgram } from '../e2e/support/keptProgram.ts';
import { rawRecords } from '../e2e/support/rawRecords.ts';
import { must, mustEqual, type Part } from './part.ts';
import { scratch } from './support/scratch.ts';

class Newer {
  readonly program: KeptProgram;
  private readonly burst: string;
  private readonly template: string;
  private whole = '';

  constructor(program: KeptProgram, burst: string, template: string) {
    this.program = program;
    this.burst = burst;
    this.template = template;
  }

  async fill(): Promise<void> {
    const { page } = await this.program.start(this.burst);
    await page.goto(this.program.address);
    mustEqual((await page.evaluate(() => window.burst.open())).kind, 'ready', 'broken', 'the program at first');
    for (const act of [setUp, ...fillOf(300)]) await page.evaluate((one) => window.burst.commit(one), act);
    this.whole = digestOf(await page.evaluate(() => window.burst.read()));
    await this.program.stop();
    this.program.copyTo(this.template);
  }

  goBack(): void {
    this.program.goBackTo(this.template);
  }

  private get entries(): string {
    return join(this.program.folders.journal, 'entries-1');
  }

  private journalText(): string {
    const names = readdirSync(this.entries).toSorted();
    return names.map((name) => readFileSync(join(this.entries, name), 'utf8')).join('');
  }

  /** The journal as a program so many versions newer goes on with it. */
  async writeNewerEntry(by: number): Promise<void> {
    const name = readdirSync(this.entries).toSorted().at(-1) ?? '';
    const last = JSON.parse(this.journalText().trimEnd().split('\n').at(-1) ?? '') as JournalEntry;
    const { hash, ...body } = last;
    const payload = { ...last.payload, key: crypto.randomUUID(), changes: last.payload.changes.slice(0, 1) };
    const newer = { ...body, seq: last.seq + 1, prevHash: hash, schema: recordsVersion + by, payload };
    appendFileSync(join(this.entries, name), seal(newer).line);
    await this.mustRefuse();
  }

  /** The working copy as a program so many versions newer leaves it. */
  async upgradeCopy(by: number): Promise<void> {
    const version = nativeVersion(knownVersion + by);
    const { page } = await this.program.start(this.burst);
    await page.goto(`${this.program.address}favicon.ico`);
    await page.evaluate(upgrade, version);
    await this.program.stop();
    const after = await this.mustRefuse();
    const versions = (await after.evaluate(() => indexedDB.databases())).filter(({ name }) => name === 'bagwright-1');
    mustEqual(versions, [{ name: 'bagwright-1', version }], 'undetected', 'the newer database');
    mustEqual(digestOf(await rawRecords(after, 'bagwright-1')), this.whole, 'lost', 'what the newer database holds');
  }

  private async mustRefuse(): Promise<Page> {
    const before = this.journalText();
    const { page } = await this.program.start(siteFolder);
    await page.goto(this.program.address);
    const main = page.locator('main.bw-hindered');
    const heading = await main.getByRole('heading', { level: 1 }).innerText({ timeout: 30_000 });
    mustEqual(heading, 'A newer version of this program has been at work here', 'undetected', 'the heading');
    const ways = await page.getByRole('button', { name: /Build|Keep|Go back/ }).count();
    mustEqual(ways, 0, 'undetected', 'buttons that write');
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save everything to a file…' }).click();
    const text = readFileSync(await (await download).path(), 'utf8');
    must(text.includes('filled 299'), 'broken', 'what is handed out does not hold the last record');
    mustEqual(this.journalText(), before, 'undetected', 'the journal');
    return page;
  }
}

function upgrade(version: number): Promise<void> {
  return new Promise((resolve, reject) => {
    const opening = indexedDB.open('bagwright-1', version);
    opening.addEventListener('error', () => reject(opening.error ?? new Error('not opened')));
    opening.addEventListener('upgradeneeded', () => opening.result.createObjectStore('newer'));
    opening.addEventListener('success', () => {
      opening.result.close();
      resolve();
    });
  });
}

/** Trial n: the journal and the copy in turn, newer by 1, 2 … 10 versions. */
export const newerVersions: Part = {
  of: 'F12',
  fault: 'a journal or a working copy of a version newer by 1 … 10',
  trials: 20,
  async open() {
    await buildIfNeeded();
    const own = scratch();
    const newer = new Newer(await KeptProgram.inNewFolder(), await buildBurstSite(own.folder()), own.folder());
    await newer.fill();
    return {
      async trial(n) {
        const by = (Math.floor(n / 2) % 10) + 1;
        newer.goBack();
        await (n % 2 === 0 ? newer.writeNewerEntry(by) : newer.upgradeCopy(by)).finally(() => newer.program.killBoth());
      },
      async close() {
        await newer.program.end();
        own.clear();
      },
    };
  },
};
