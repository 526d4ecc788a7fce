/** What the window does where its journal is gone, newer than itself, or its program has ended. */
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { tmpdir } from 'node:os';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { buildIfNeeded, siteFolder } from '../../../electron/launch/build.ts';
import { canonicalJson } from '../../../shared-types/canonicalJson.ts';
import type { Act } from '../../../renderer/store/store.ts';
import { newerVersions } from '../../campaign/newerVersions.ts';
import { expectSurvived } from '../../campaign/support/survived.ts';
import { fillOf, setUp } from '../support/burst/acts.ts';
import type { Records } from '../support/burst/main.ts';
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

/** What the records hold, one line each: which version of itself each is, and how the person likes the window, is left aside. */
function contentOf(records: Records): string[] {
  return Object.entries(records)
    .filter(([table]) => table !== 'preferences')
    .flatMap(([table, rows]) => rows.map((row) => canonicalJson([table, { ...row, rev: 0 }])))
    .toSorted();
}

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

it('what a newer version has written is not opened, not changed, and handed out: the journal, the working copy', async () => {
  await expectSurvived(newerVersions, 2);
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
    await strip.getByText(/^NOT SAVED/).waitFor();
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

describe('a journal and a profile that are both deleted, with the snapshots left', () => {
  it.each([
    ['everything', 'Nothing is here, and a snapshot is'],
    ['what came after an older copy', 'A snapshot goes further than what is here'],
  ])('shows no program that lacks %s before it has said so, and brings all of it back', async (lacks, heading) => {
    const { data, journal, browserProfile } = program.folders;
    const older = join(scratch, lacks);
    await program.stop();
    program.copyTo(older);
    const { page } = await open(burst);
    const late: Act = { ...setUp, proposals: [{ table: 'shelves', put: { id: 'late', rev: 0, name: 'Late' } }] };
    await page.evaluate((act) => window.burst.commit(act), late);
    const before = contentOf(await page.evaluate(() => window.burst.read()));
    await page.evaluate(() => window.burst.snapshot());
    await program.stop();
    for (const folder of [journal, browserProfile]) {
      rmSync(folder, { recursive: true, maxRetries: 5 });
      if (lacks === 'everything') continue;
      cpSync(join(older, relative(data, folder)), folder, { recursive: true, verbatimSymlinks: true });
    }

    const { page: next } = await open(siteFolder);
    expect(await headingOf(next)).toBe(heading);
    await next.getByRole('button', { name: 'Look at what it would bring back' }).click();
    await next.getByRole('button', { name: /^Restore \d+ records?$/ }).click();
    await next.getByText(/^Restored as of/).waitFor({ timeout: 30_000 });
    expect(contentOf(await rawRecords(next, 'bagwright-1'))).toEqual(before);
    await program.stop();
    // It is said once.
    const { page: last } = await open(siteFolder);
    await last.getByRole('contentinfo').waitFor({ timeout: 30_000 });
    expect(await hindered(last).count()).toBe(0);
  });

  it('says it again where the journal that took it back is lost in its turn, and where the snapshots are damaged too', async () => {
    const { data, journal, browserProfile } = program.folders;
    await open(burst).then(({ page }) => page.evaluate(() => window.burst.snapshot()));
    const loseBoth = async (): Promise<Page> => {
      await program.killBoth();
      for (const folder of [journal, browserProfile]) rmSync(folder, { recursive: true, maxRetries: 5 });
      return (await open(siteFolder)).page;
    };
    const page = await loseBoth();
    await page.getByRole('button', { name: 'Look at what it would bring back' }).click();
    await page.getByRole('button', { name: /^Restore \d+ records?$/ }).click();
    await page.getByText(/^Restored as of/).waitFor({ timeout: 30_000 });
    expect(await headingOf(await loseBoth())).toBe('Nothing is here, and a snapshot is');

    const snapshots = join(data, 'snapshots');
    for (const name of readdirSync(snapshots).filter((one) => one.endsWith('.snapshot'))) {
      const bytes = readFileSync(join(snapshots, name));
      const at = Math.floor(bytes.length / 2);
      bytes[at] = (bytes[at] ?? 0) ^ 1;
      writeFileSync(join(snapshots, name), bytes);
    }
    const damaged = await loseBoth();
    expect(await headingOf(damaged)).toMatch(
      /^(A damaged snapshot goes|Damaged snapshots go) further than what is here$/,
    );
    await damaged.getByRole('button', { name: 'Look at the snapshots' }).click();
    await damaged.getByText('Damaged here').first().waitFor({ timeout: 30_000 });
  });
});
