/**
 * R1 in its short form: kill -9 in the middle of writing. `BAGWRIGHT_TRIALS=200` is the long one; the seed of a run that
 * failed is in its name, and `BAGWRIGHT_SEED` repeats it.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { dice } from '../../reference/dice.ts';
import { itemsAfter, setUp } from '../support/burst/acts.ts';
import { buildBurstSite } from '../support/burstSite.ts';
import { digestOf } from '../support/digest.ts';
import { KeptProgram, type Life } from '../support/keptProgram.ts';

const trials = Number(process.env['BAGWRIGHT_TRIALS'] ?? 40);
const seed = Number(process.env['BAGWRIGHT_SEED'] ?? 4711);
const victims = ['browser', 'server', 'both'] as const;
type Victim = (typeof victims)[number];

const scratch = mkdtempSync(join(tmpdir(), 'bagwright-kill-'));
let site: string;
let program: KeptProgram;
beforeAll(async () => {
  [site, program] = await Promise.all([buildBurstSite(scratch), KeptProgram.inNewFolder()]);
});
afterAll(async () => {
  await program.end();
  rmSync(scratch, { recursive: true, force: true });
});

/** Numbers of the newest act that began and of the newest that the store called saved. */
const told = { began: -1, saved: -1 };
/** The journal's sequence before the first act. */
let base = 0;

async function openPage({ page, browser }: Life, heard: Set<unknown>): Promise<string> {
  if (!heard.has(browser)) {
    heard.add(browser);
    await browser.context.exposeBinding('actBegins', (_source, n: number) => void (told.began = n));
    await browser.context.exposeBinding('actSaved', (_source, n: number) => void (told.saved = n));
  }
  await page.goto(program.address);
  const { kind } = await page.evaluate(() => window.burst.open());
  return kind;
}

async function killIn(victim: Victim, { page }: Life, from: number, afterMs: number): Promise<void> {
  const writing = page
    .evaluate((first) => window.burst.burst(first), from)
    .then(
      () => 'ended',
      () => 'broke off',
    );
  // Counted from the first act on: before it there is nothing to lose.
  while (told.began < from) await pause(1);
  await pause(afterMs);
  if (victim === 'browser') await program.killBrowser();
  else if (victim === 'both') await program.killBoth();
  else {
    await program.killServer();
    expect(await writing, 'an act whose server is gone').toBe('broke off');
    expect((await page.evaluate(() => window.burst.saving())).kind, 'the save state without a server').not.toBe(
      'saved',
    );
  }
  await writing;
}

describe(`${trials} × kill -9 in a burst of writes, seed ${seed}`, () => {
  it('loses no act that was called saved and keeps no act by halves', async () => {
    const chance = dice(seed);
    const heard = new Set<unknown>();
    let life = await program.start(site);
    expect(await openPage(life, heard)).toBe('ready');
    base = await life.page.evaluate((act) => window.burst.commit(act), setUp);
    let acts = 0;

    for (let trial = 0; trial < trials; trial += 1) {
      const victim = victims[trial % victims.length] ?? 'both';
      told.began = acts - 1;
      told.saved = acts - 1;
      const afterMs = chance.whole(0, 250);
      await killIn(victim, life, acts, afterMs);
      const { began, saved } = told;

      life = await program.start(site);
      const where = `trial ${trial}: ${victim} killed ${afterMs} ms into act ${acts} ff.; began ${began}, saved ${saved}`;
      expect(await openPage(life, heard), where).toBe('ready');
      const journal = await life.page.evaluate(() => window.burst.replay());
      const kept = await life.page.evaluate(() => window.burst.read());

      acts = journal.seq - base;
      expect(acts, `${where}: acts kept`).toBeGreaterThanOrEqual(saved + 1);
      expect(acts, `${where}: acts kept`).toBeLessThanOrEqual(began + 1);
      const items = new Map(kept.items.map(({ id, name }) => [id, name ?? '']));
      expect(items, where).toEqual(itemsAfter(acts));
      expect(digestOf(kept), `${where}: the screens and the journal`).toBe(digestOf(journal.records));
    }
    expect(acts, 'acts over all trials: the kills must have hit writing').toBeGreaterThan(trials);
  }, 600_000);
});

function pause(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}
