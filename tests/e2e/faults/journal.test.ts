/** What the window does where its journal is gone, newer than itself, or its program has ended. */
import { appendFileSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { tmpdir } from 'node:os';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { seal } from '../../../electron/journal/entry.ts';
import { buildIfNeeded, siteFolder } from '../../../electron/launch/build.ts';
import type { Act } from '../../../renderer/store/store.ts';
import type { JournalEntry } from '../../../shared-types/journal.ts';
import { knownVersion, nativeVersion } from '../../../renderer/store/copy/workingCopy.ts';
import { recordsVersion } from '../../../shared-types/records/index.ts';
import { fillOf, setUp } from '../support/burst/acts.ts';
import { buildBurstSite } from '../support/burstSite.ts';
import { digestOf } from '../support/digest.ts';
import { KeptProgram, type Life } from '../support/keptProgram.ts';
import { rawRecords } from '../support/rawRecords.ts';

const scratch = mkdtempSync(join(tmpdir(), 'bagwright-journal-'));
let burst: string;
let program: KeptProgram;
let whole: string;

beforeAll(async () => {
  await buildIfNeeded();
  burst = await buildBurstSite(scratch);
});
afterAll(() => rmSync(scratch, { recursive: true, force: true }));
beforeEach(async () => {
  program = await KeptProgram.inNewFolder();
  const { page } = await open(burst);
  for (const act of [setUp, ...fillOf(300)]) await page.evaluate((one) => window.burst.commit(one), act);
  whole = digestOf(await page.evaluate(() => window.burst.read()));
});
afterEach(() => program.end());

async function open(site: string): Promise<Life> {
  const life = await program.start(site);
  await life.page.goto(program.address);
  if (site === burst) expect((await life.page.evaluate(() => window.burst.open())).kind).toBe('ready');
  return life;
}

const hindered = (page: Page) => page.locator('main.bw-hindered');
const headingOf = (page: Page) => hindered(page).getByRole('heading', { level: 1 }).innerText({ timeout: 10_000 });

describe('a journal that is deleted under the program', () => {
  it('is not written to as if it were there, and its loss is told at the next start', async () => {
    const { page } = await program.start(burst);
    // What was written last is still open in the program's hand.
    rmSync(program.folders.journal, { recursive: true });
    const late: Act = { ...setUp, proposals: [{ table: 'shelves', put: { id: 'late', rev: 0, name: 'Late' } }] };
    const answer = await page.evaluate(
      (act) =>
        window.burst.commit(act).then(
          () => 'saved',
          () => 'not saved',
        ),
      late,
    );
    expect(answer, 'a change whose only line is in a deleted file').toBe('not saved');
    await program.stop();

    const { page: next } = await open(siteFolder);
    expect(await headingOf(next)).toBe('The journal is empty, the working copy is not');
    await next.getByRole('button', { name: 'Keep what the working copy holds…' }).click();
    await next.getByRole('dialog').getByRole('button', { name: 'Keep what the working copy holds' }).click();
    await next.getByRole('contentinfo').waitFor({ timeout: 30_000 });
    expect(digestOf(await rawRecords(next, 'bagwright-1'))).toBe(whole);
  });
});

describe('what a newer version has written', () => {
  const newerVersion = nativeVersion(knownVersion + 1);
  const entriesOf = () => join(program.folders.journal, 'entries-1');
  const journalText = (): string =>
    readdirSync(entriesOf())
      .toSorted()
      .map((name) => readFileSync(join(entriesOf(), name), 'utf8'))
      .join('');

  it('is not opened, not changed, and handed out: the journal', async () => {
    await program.stop();
    const name = readdirSync(entriesOf()).toSorted().at(-1) ?? '';
    const lines = journalText().trimEnd().split('\n');
    const last = JSON.parse(lines.at(-1) ?? '') as JournalEntry;
    const { hash, ...body } = last;
    const payload = { ...last.payload, key: crypto.randomUUID(), changes: last.payload.changes.slice(0, 1) };
    const newer = { ...body, seq: last.seq + 1, prevHash: hash, schema: recordsVersion + 1, payload };
    appendFileSync(join(entriesOf(), name), seal(newer).line);
    const before = journalText();
    await expectRefusesToWrite(before);
  });

  it('is not opened, not changed, and handed out: the working copy', async () => {
    const { page } = await program.start(burst);
    await page.goto('about:blank');
    await page.goto(`${program.address}favicon.ico`);
    await page.evaluate(
      (version) =>
        new Promise<void>((resolve, reject) => {
          const opening = indexedDB.open('bagwright-1', version);
          opening.addEventListener('error', () => reject(opening.error ?? new Error('not opened')));
          opening.addEventListener('upgradeneeded', () => opening.result.createObjectStore('newer'));
          opening.addEventListener('success', () => {
            opening.result.close();
            resolve();
          });
        }),
      newerVersion,
    );
    await program.stop();
    const page2 = await expectRefusesToWrite(journalText());
    const versions = await page2.evaluate(() => indexedDB.databases());
    expect(versions).toEqual([{ name: 'bagwright-1', version: newerVersion }]);
    expect(digestOf(await rawRecords(page2, 'bagwright-1'))).toBe(whole);
  });

  async function expectRefusesToWrite(before: string): Promise<Page> {
    const { page } = await open(siteFolder);
    expect(await headingOf(page)).toBe('A newer version of this program has been at work here');
    expect(await page.getByRole('button', { name: /Build|Keep|Go back/ }).count()).toBe(0);
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save everything to a file…' }).click();
    const text = readFileSync(await (await download).path(), 'utf8');
    expect(text).toContain('filled 299');
    expect(journalText(), 'the journal').toBe(before);
    return page;
  }
});

describe('a program that ends under its window', () => {
  it('is no longer called saved within seconds, and after a new start all is there', async () => {
    await program.stop();
    const { page } = await open(siteFolder);
    await page.goto(`${program.address}#/catalog`);
    const strip = page.getByRole('contentinfo').getByRole('status');
    await page.getByRole('button', { name: 'Rename shelf' }).click();
    await page.getByLabel('Name of the shelf').fill('Before the end');
    await page.getByRole('button', { name: 'Save shelf' }).click();
    await strip.getByText(/^Saved \d\d:\d\d$/).waitFor();
    await program.killServer();
    await strip.getByText(/^NOT SAVED/).waitFor({ timeout: 5_000 });
    await page.getByRole('button', { name: 'Rename shelf' }).click();
    await page.getByLabel('Name of the shelf').fill('After the end');
    await page.getByRole('button', { name: 'Save shelf' }).click();
    await page.getByRole('alert').first().waitFor();
    expect(await strip.textContent()).not.toMatch(/Saved \d/);

    await program.start(siteFolder);
    page.on('dialog', (dialog) => void dialog.accept());
    await page.reload();
    await page.getByRole('option', { name: 'Before the end' }).first().waitFor({ state: 'attached' });
    const { shelves, items } = await rawRecords(page, 'bagwright-1');
    expect(shelves.map(({ name }) => name)).toEqual(['Before the end']);
    expect(items).toHaveLength(300);
  });
});
