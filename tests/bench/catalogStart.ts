/**
 * What an open catalog costs over time, with the production page, the real server and the real store:
 * `npx tsx tests/bench/catalogStart.ts`. First an item's page is opened and closed 200 times and the heap is held against what it was:
 * less than 5 MB more. Then the program is started 20 times with fifty thousand items kept, from the first line of its server and a new
 * process of the browser to the place it begins at, and to the catalog's table that answers a key with all of them searched. `heap` or `start` behind the command asks for one of the two; a number sets how many items.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import type { CDPSession, Page } from 'playwright-core';
import { roundNominal } from '../../renderer/engine/units/index.ts';
import { closeSharedBrowser, openBuilt } from '../e2e/support/openBuilt.ts';
import type { OpenOptions } from '../e2e/support/openBuilt.ts';
import { bringIn, ms, openDepot, patienceMs, say, share, tableOf } from './depot.ts';

const asked = process.argv.slice(2);
const items = Number(asked.find((one) => /^\d+$/.test(one)) ?? 50_000);
const wants = (part: string): boolean => !asked.includes(part === 'heap' ? 'start' : 'heap');
const cycles = 200;
const growthMost = 5e6;
const starts = 20;
const fewItems = 500;

const folder = mkdtempSync(join(tmpdir(), 'bagwright-bench-'));

async function filled(page: Page, count: number): Promise<void> {
  await openDepot(page);
  const file = join(folder, `${count}.csv`);
  writeFileSync(file, tableOf(count, 0));
  await bringIn(page, file);
  await page.getByText(`${count} shown`).waitFor({ timeout: patienceMs });
}

async function heapBytes(session: CDPSession): Promise<number> {
  // What finalizers let go of is collected by the second.
  await session.send('HeapProfiler.collectGarbage');
  await session.send('HeapProfiler.collectGarbage');
  return (await session.send('Runtime.getHeapUsage')).usedSize;
}

/** One item's page after another, each closed again. */
async function openAndClose(page: Page, addresses: readonly string[], times: number): Promise<void> {
  for (let time = 0; time < times; time += 1) {
    const address = addresses[time % addresses.length] ?? '';
    await page.evaluate((hash) => (location.hash = hash), address);
    await page.locator('.bw-item #item-heading').waitFor();
    await page.evaluate(() => (location.hash = '#/catalog'));
    await page.getByText('Take an item in hand').waitFor();
  }
}

/** Addresses of some items, as the page itself writes them. */
async function addressesOf(page: Page, count: number): Promise<string[]> {
  const addresses: string[] = [];
  await page.locator('.bw-catalog-table [role=row][tabindex]').first().click();
  for (let at = 0; at < count; at += 1) {
    addresses.push(await page.evaluate(() => location.hash));
    await page.keyboard.press('ArrowDown');
    await page.waitForTimeout(50);
  }
  return [...new Set(addresses)];
}

async function heapTold(): Promise<boolean> {
  const opened = await openBuilt();
  const { page } = opened;
  try {
    await filled(page, fewItems);
    const addresses = await addressesOf(page, 20);
    const session = await page.context().newCDPSession(page);
    // What is made once, for the first items, is no growth.
    await openAndClose(page, addresses, 40);
    const before = await heapBytes(session);
    await openAndClose(page, addresses, cycles);
    const grown = (await heapBytes(session)) - before;
    const mb = (bytes: number): string => `${roundNominal(bytes / 1e6, 2)} MB`;
    say(
      `heap after ${cycles} opened and closed`,
      `${mb(grown)} more than ${mb(before)}; less than ${mb(growthMost)} asked`,
    );
    if (opened.pageErrors.length > 0) say('errors of the page', opened.pageErrors.join('; '));
    return grown < growthMost;
  } finally {
    await opened.close();
    await closeSharedBrowser();
  }
}

/** From nothing to a table that has answered a key [ms]. */
async function startMs(options: OpenOptions): Promise<number> {
  const began = performance.now();
  const opened = await openBuilt({ ...options, blank: true });
  try {
    await opened.page.goto(`${opened.origin}/#/catalog`);
    await opened.page.getByText(`${items} shown`).waitFor({ timeout: patienceMs });
    await opened.page.getByRole('searchbox').pressSequentially('7');
    await opened.page.locator('[data-found="7"]').waitFor({ timeout: patienceMs });
    return performance.now() - began;
  } finally {
    await opened.close();
  }
}

/** From nothing to the place the program begins at, where the finder has answered a key [ms]. */
async function firstPlaceMs(options: OpenOptions): Promise<number> {
  const began = performance.now();
  const opened = await openBuilt({ ...options, blank: true });
  try {
    const { page } = opened;
    await page.goto(`${opened.origin}/`);
    await page.getByRole('heading', { level: 1 }).waitFor({ timeout: patienceMs });
    await page.keyboard.press('Control+k');
    await page.keyboard.type('c');
    await page.getByRole('listbox').getByRole('option').first().waitFor({ timeout: patienceMs });
    return performance.now() - began;
  } finally {
    await opened.close();
  }
}

async function startsTold(): Promise<void> {
  const kept = { profile: join(folder, 'profile'), journal: join(folder, 'journal') };
  const first = await openBuilt(kept);
  const port = Number(new URL(first.origin).port);
  try {
    await filled(first.page, items);
    await first.page
      .getByText(/^Saved/)
      .first()
      .waitFor({ timeout: patienceMs });
  } finally {
    await first.close();
  }
  const told = async (what: string, startOnce: (options: OpenOptions) => Promise<number>): Promise<void> => {
    const times: number[] = [];
    for (let at = 0; at < starts; at += 1) times.push(await startOnce({ ...kept, port }));
    say(
      what,
      `p50 ${ms(share(times, 0.5))}, p95 ${ms(share(times, 0.95))}, most ${ms(Math.max(...times))}, of ${starts}`,
    );
  };
  // Behind a browser that left while it took them in, the first start takes longer: it is among these.
  await told(`start to the first place, ${items} items`, firstPlaceMs);
  await told(`start to the catalog, all searched, ${items} items`, startMs);
}

try {
  say(
    'load of the machine',
    loadavg()
      .map((load) => String(roundNominal(load, 1)))
      .join(', '),
  );
  if (wants('heap') && !(await heapTold())) process.exitCode = 1;
  if (wants('start')) await startsTold();
} finally {
  rmSync(folder, { recursive: true, force: true });
}
