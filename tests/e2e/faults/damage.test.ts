/**
 * R8 in its short form: the browser's files damaged in each of eight ways, then the real window. `BAGWRIGHT_ROUNDS=10`
 * is the long one; `BAGWRIGHT_SEED` repeats a run.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { buildIfNeeded, siteFolder } from '../../../electron/launch/build.ts';
import { dice } from '../../reference/dice.ts';
import { fillOf, setUp } from '../support/burst/acts.ts';
import { buildBurstSite } from '../support/burstSite.ts';
import { digestOf } from '../support/digest.ts';
import { KeptProgram } from '../support/keptProgram.ts';
import { damageNames, damages } from '../support/profileDamage.ts';
import { pointedAt, rawRecords } from '../support/rawRecords.ts';

const rounds = Number(process.env['BAGWRIGHT_ROUNDS'] ?? 1);
const seed = Number(process.env['BAGWRIGHT_SEED'] ?? 4711);
/** Long enough in words that part of them has left the browser's log for its tables, as it does every 4 MB. */
const filled = { count: 1500, words: 200 };
/** Three times what the program gives itself: others share the machine with it here. */
const pageMs = 30_000;

const scratch = mkdtempSync(join(tmpdir(), 'bagwright-damage-'));
const template = join(scratch, 'whole');
let program: KeptProgram;
let whole = { digest: '', items: 0 };

beforeAll(async () => {
  await buildIfNeeded();
  const burst = await buildBurstSite(scratch);
  program = await KeptProgram.inNewFolder();
  const { page } = await program.start(burst);
  await page.goto(program.address);
  await page.evaluate(() => window.burst.open());
  for (const act of [setUp, ...fillOf(filled.count, filled.words)])
    await page.evaluate((one) => window.burst.commit(one), act);
  // Edits and undos too: a copy that lost only those holds as many records as it should.
  await page.evaluate(() => window.burst.burst(0, 59));
  const records = await page.evaluate(() => window.burst.read());
  whole = { digest: digestOf(records), items: records.items.length };
  await program.stop();
  program.copyTo(template);
}, 240_000);
afterEach(() => program.killBoth());
afterAll(async () => {
  await program.end();
  rmSync(scratch, { recursive: true, force: true });
});

const recoveryPage = (page: Page) => page.locator('main.bw-hindered');

/** What the window shows within its time: the work, or why not. */
async function opened(page: Page): Promise<{ shows: 'work' | 'recovery'; heading: string }> {
  const began = performance.now();
  await page.goto(`${program.address}#/catalog`);
  const recovery = recoveryPage(page);
  const work = page.getByRole('contentinfo');
  await recovery
    .or(work)
    .first()
    .waitFor({ timeout: pageMs - (performance.now() - began) });
  if (await recovery.isVisible())
    return { shows: 'recovery', heading: await recovery.getByRole('heading', { level: 1 }).innerText() };
  return { shows: 'work', heading: '' };
}

async function expectWhole(page: Page, where: string): Promise<void> {
  const { items, digest } = whole;
  await page.getByRole('region', { name: 'Catalog' }).getByText(`${items} shown`).waitFor({ timeout: pageMs });
  expect(digestOf(await rawRecords(page, pointedAt(program.folders.journal))), where).toBe(digest);
}

/** By the window's own button, as a person would. */
async function rebuild(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Build the working copy again' }).click();
  await page.getByRole('contentinfo').waitFor({ timeout: 60_000 });
}

async function openAndMend(where: string): Promise<string> {
  const { page } = await program.start(siteFolder);
  const { shows, heading } = await opened(page);
  if (shows === 'recovery') await rebuild(page);
  await expectWhole(page, `${where}, ${shows} ${heading}`);
  return shows;
}

describe.each(Array.from({ length: rounds }, (_, round) => seed + round))('damage to the profile, seed %i', (from) => {
  it.each(damageNames)(
    'never shows less than was saved after: %s',
    async (name) => {
      program.goBackTo(template);
      const what = damages[name]({
        profile: program.folders.browserProfile,
        port: program.port,
        dice: dice(from + damageNames.indexOf(name) * 1000),
      });
      const first = await openAndMend(what);
      // Nothing can be in a new profile: to show the work without a word would be to have made it up.
      const emptied = name === 'profile swapped' || name === 'folder deleted';
      expect(first === 'recovery' || !emptied, `${what}: ${first}`).toBe(true);
      // Some damage is met only when the browser opens its files for the second time; the short form asks one such.
      if (rounds === 1 && name !== 'truncate log') return;
      await program.stop();
      await openAndMend(`${what}, second start`);
    },
    180_000,
  );
});
