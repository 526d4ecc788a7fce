/**
 * Writing broken off: in its short form, kill -9 and reload in the middle of it. `BAGWRIGHT_TRIALS=200` is the long one; the seed of a run that
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

const trials = Number(process.env['BAGWRIGHT_TRIALS'] ?? 20);
const seed = Number(process.env['BAGWRIGHT_SEED'] ?? 4711);
const reloads = Math.ceil(trials / 2);
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

/** Begins a burst of acts and comes back in the middle of it; `writing` tells how the burst ends. */
async function inTheMidst(
  page: Life['page'],
  from: number,
  afterMs: number,
): Promise<{ writing: Promise<'ended' | 'broke off'> }> {
  const writing = page
    .evaluate((first) => window.burst.burst(first), from)
    .then(
      () => 'ended' as const,
      () => 'broke off' as const,
    );
  // Counted from the first act on: before it there is nothing to lose.
  while (told.began < from) await pause(1);
  await pause(afterMs);
  return { writing };
}

/** The page as a person loads it again: no word to the store beforehand, and the same tab, browser and server after. */
async function reloadIn({ page }: Life, from: number, afterMs: number): Promise<void> {
  const { writing } = await inTheMidst(page, from, afterMs);
  await page.reload();
  expect(await writing, 'a burst whose page was loaded again').toBe('broke off');
}

async function killIn(victim: Victim, { page }: Life, from: number, afterMs: number): Promise<void> {
  const { writing } = await inTheMidst(page, from, afterMs);
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

/** Number of the next act, and whom the binding of a browser has been given to, over all trials of this file. */
let acts = 0;
const heard = new Set<unknown>();

/** What is kept after a fault, against what was called saved before it. */
async function findAgain(life: Life, where: string): Promise<void> {
  const { began, saved } = told;
  expect(await openPage(life, heard), where).toBe('ready');
  const journal = await life.page.evaluate(() => window.burst.replay());
  const kept = await life.page.evaluate(() => window.burst.read());

  acts = journal.seq - base;
  expect(acts, `${where}: acts kept; began ${began}, saved ${saved}`).toBeGreaterThanOrEqual(saved + 1);
  expect(acts, `${where}: acts kept; began ${began}, saved ${saved}`).toBeLessThanOrEqual(began + 1);
  const items = new Map(kept.items.map(({ id, name }) => [id, name ?? '']));
  expect(items, where).toEqual(itemsAfter(acts));
  expect(digestOf(kept), `${where}: the screens and the journal`).toBe(digestOf(journal.records));
}

function beginTrial(): number {
  told.began = acts - 1;
  told.saved = acts - 1;
  return acts;
}

describe(`seed ${seed}`, () => {
  it(`loses no act that was called saved and keeps no act by halves, over ${trials} × kill -9 in a burst of writes`, async () => {
    const chance = dice(seed);
    let life = await program.start(site);
    expect(await openPage(life, heard)).toBe('ready');
    base = await life.page.evaluate((act) => window.burst.commit(act), setUp);

    for (let trial = 0; trial < trials; trial += 1) {
      const victim = victims[trial % victims.length] ?? 'both';
      const first = beginTrial();
      const afterMs = chance.whole(0, 250);
      await killIn(victim, life, first, afterMs);
      life = await program.start(site);
      await findAgain(life, `trial ${trial}: ${victim} killed ${afterMs} ms into act ${first} ff.`);
    }
    expect(acts, 'acts over all trials: the kills must have hit writing').toBeGreaterThan(trials);
  }, 600_000);

  it(`nor over ${reloads} pages loaded again in the middle of a save`, async () => {
    const chance = dice(seed);
    const life = await program.start(site);
    let unanswered = 0;
    for (let trial = 0; trial < reloads; trial += 1) {
      const first = beginTrial();
      const afterMs = chance.whole(0, 60);
      await reloadIn(life, first, afterMs);
      if (told.began > told.saved) unanswered += 1;
      await findAgain(life, `reload ${trial}: ${afterMs} ms into act ${first} ff.`);
    }
    expect(unanswered, 'reloads that met an act which had begun and was not yet called saved').toBeGreaterThan(0);
  }, 300_000);
});

function pause(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}
