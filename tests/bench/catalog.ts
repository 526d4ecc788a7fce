/**
 * The catalog at fifty thousand items, with the production page, the real server and the real store:
 * `npx tsx tests/bench/catalog.ts`. Items come in through the page's own import, keys are pressed one by one and timed from
 * the key to the painted rows, the table is scrolled by its wheel, and keys and clicks are timed on a processor four times slower. A number behind the command sets how many items.
 */
import { writeFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { roundNominal } from '../../renderer/engine/units/index.ts';
import { closeSharedBrowser, openBuilt } from '../e2e/support/openBuilt.ts';
import { bringIn, ms, openDepot, patienceMs, say, share, tableOf } from './depot.ts';

declare global {
  interface Window {
    catalogTasksMs?: number[];
    resultMs?: number[];
    frameGapsMs?: number[];
    interactions?: Map<number, number>;
  }
}

const items = Number(process.argv[2] ?? 50_000);

/** Saved is on the disk; the tables take many records in behind that, and the page has to share the processor with it. */
async function whenTakenIn(page: Page): Promise<void> {
  const began = performance.now();
  await page.evaluate(() => navigator.locks.request('arrivals of bagwright-1', { mode: 'shared' }, () => undefined));
  say('  the tables have them', `after another ${ms(performance.now() - began)}`);
}

async function importTold(page: Page, folder: string, count: number, from: number): Promise<void> {
  const file = join(folder, `${count}.csv`);
  writeFileSync(file, tableOf(count, from));
  await page.evaluate(() => (window.catalogTasksMs = []));
  const { openedMs, triedMs, keptMs } = await bringIn(page, file);
  const long = await page.evaluate(() => window.catalogTasksMs ?? []);
  say(
    `${count} items brought in`,
    `opened ${ms(openedMs)}, tried ${ms(triedMs)}, kept ${ms(keptMs)}; together ${ms(openedMs + triedMs + keptMs)}`,
  );
  say(
    '  longest tasks of the page',
    long
      .toSorted((a, b) => b - a)
      .slice(0, 5)
      .map(ms)
      .join(', ') || 'none over 50 ms',
  );
}

/** From the key to the frame in which the rows of its search are painted, pressed one after another. */
async function keysMs(page: Page): Promise<{ paintedMs: number[]; workMs: number[] }> {
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable', { timeDomain: 'threadTicks' });
  const workedMs = async (): Promise<number> => {
    const { metrics } = await session.send('Performance.getMetrics');
    return 1000 * (metrics.find(({ name }) => name === 'TaskDuration')?.value ?? Number.NaN);
  };
  const workMs: number[] = [];
  const search = page.getByRole('searchbox');
  await search.click();
  await page.evaluate(() => {
    const times: number[] = [];
    window.resultMs = times;
    let pressed: number | null = null;
    document.addEventListener('keydown', ({ timeStamp }) => (pressed = timeStamp), { capture: true });
    const list = document.querySelector('[data-found]');
    if (list === null) throw new Error('no list');
    new MutationObserver(() => {
      const began = pressed;
      pressed = null;
      if (began === null) return;
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.addEventListener('message', () => void times.push(performance.now() - began));
        port1.start();
        port2.postMessage(null);
      });
    }).observe(list, { attributes: true, attributeFilter: ['data-found'] });
  });
  for (const words of [
    'tray 12',
    'socket 4711',
    'm10',
    '120 mm',
    'bay 7 row 3',
    'sokcet 31',
    'nowhere',
    'bolt 49998',
  ]) {
    for (const key of words) {
      const before = await page.evaluate(() => window.resultMs?.length ?? 0);
      const worked = await workedMs();
      await page.keyboard.press(key === ' ' ? 'Space' : key);
      await page
        .waitForFunction((had) => (window.resultMs?.length ?? 0) > had, before, { timeout: 5000, polling: 20 })
        .catch(() => undefined);
      workMs.push((await workedMs()) - worked);
    }
    await search.fill('');
    await page.waitForTimeout(300);
  }
  const paintedMs = await page.evaluate(() => window.resultMs ?? []);
  await session.detach();
  return { paintedMs, workMs };
}

/** The wheel turned for some seconds; frames later than twice their time count as dropped. */
async function scrolled(page: Page): Promise<{ dropped: number; frames: number; rows: number }> {
  const grid = page.getByRole('grid', { name: 'Items' });
  await grid.hover();
  await page.evaluate(() => {
    const gaps: number[] = [];
    window.frameGapsMs = gaps;
    // A method: a function of its own name is one that the page does not know how to name.
    const loop = {
      last: performance.now(),
      next() {
        const now = performance.now();
        gaps.push(now - loop.last);
        loop.last = now;
        requestAnimationFrame(() => loop.next());
      },
    };
    loop.next();
  });
  let rows = 0;
  for (let turn = 0; turn < 150; turn += 1) {
    await page.mouse.wheel(0, 600);
    await page.waitForTimeout(16);
    if (turn % 10 === 0) rows = Math.max(rows, await page.locator('[role=row]').count());
  }
  const gaps = await page.evaluate(() => window.frameGapsMs ?? []);
  const frameMs = 1000 / 60;
  const lost = gaps.map((gap) => Math.max(0, Math.round(gap / frameMs) - 1));
  const dropped = lost.reduce((sum, one) => sum + one, 0);
  return { dropped, frames: gaps.length + dropped, rows };
}

const slower = 4;

/**
 * Interaction to next paint with a processor four times slower: each key and click from its event to the frame after it,
 * as the browser's own event timing has it (W3C Event Timing, in steps of 8 ms).
 */
async function interactionsMs(page: Page): Promise<number[]> {
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: slower });
  await page.evaluate(() => {
    const longest = new Map<number, number>();
    window.interactions = longest;
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) {
        const { interactionId } = entry as PerformanceEntry & { interactionId?: number };
        if (interactionId === undefined || interactionId === 0) continue;
        longest.set(interactionId, Math.max(longest.get(interactionId) ?? 0, entry.duration));
      }
    }).observe({ type: 'event', durationThreshold: 16 } as PerformanceObserverInit);
  });
  const rows = page.locator('.bw-catalog-table [role=row][tabindex]');
  const search = page.getByRole('searchbox');
  for (let round = 0; round < 6; round += 1) {
    await search.click();
    for (const key of `tray ${round + 10}`) {
      await page.keyboard.press(key === ' ' ? 'Space' : key);
      await page.waitForTimeout(120);
    }
    await rows.nth(round).click();
    for (let step = 0; step < 12; step += 1) {
      await page.keyboard.press(step % 4 === 3 ? 'PageDown' : 'ArrowDown');
      await page.waitForTimeout(120);
    }
    await rows.nth(2).click();
    await page.waitForTimeout(200);
    await search.click();
    for (let key = 0; key < 7; key += 1) {
      await page.keyboard.press('Backspace');
      await page.waitForTimeout(120);
    }
  }
  await page.waitForTimeout(1000);
  const times = await page.evaluate(() => [...(window.interactions ?? new Map<number, number>()).values()]);
  await session.send('Emulation.setCPUThrottlingRate', { rate: 1 });
  await session.detach();
  return times;
}

const folder = mkdtempSync(join(tmpdir(), 'bagwright-bench-'));
const opened = await openBuilt();
const { page } = opened;
try {
  await page.evaluate(() => {
    const times: number[] = [];
    window.catalogTasksMs = times;
    new PerformanceObserver((list) => {
      for (const { duration } of list.getEntries()) (window.catalogTasksMs ?? times).push(duration);
    }).observe({ type: 'longtask' });
  });
  await openDepot(page);
  const few = Math.min(10_000, Math.floor(items / 5));
  await importTold(page, folder, few, 0);
  await page.keyboard.press('Control+z');
  await page.getByText('0 shown').waitFor({ timeout: patienceMs });
  await whenTakenIn(page);
  // All of them at once, as the aim has it; the few before were an aim of their own.
  await importTold(page, folder, items, few);
  await page.getByText(`${items} shown`).waitFor({ timeout: patienceMs });
  await whenTakenIn(page);
  await page.waitForTimeout(3000);

  const profiler = await page.context().newCDPSession(page);
  const profileTo = process.env['BAGWRIGHT_PROFILE'];
  if (profileTo !== undefined) {
    await profiler.send('Profiler.enable');
    await profiler.send('Profiler.start');
  }
  const { paintedMs: keys, workMs } = await keysMs(page);
  if (profileTo !== undefined) writeFileSync(profileTo, JSON.stringify((await profiler.send('Profiler.stop')).profile));
  say(
    'key to painted rows',
    `p50 ${ms(share(keys, 0.5))}, p95 ${ms(share(keys, 0.95))}, most ${ms(Math.max(...keys))}, of ${keys.length}`,
  );
  // By the processor's clock of the page's own thread: other programs on the machine do not count.
  say('  work of the page for a key', `p50 ${ms(share(workMs, 0.5))}, p95 ${ms(share(workMs, 0.95))}`);
  const { dropped, frames, rows } = await scrolled(page);
  say(
    'scrolling',
    `${dropped} of ${frames} frames dropped (${roundNominal((100 * dropped) / frames, 1)} %), at most ${rows} rows drawn`,
  );
  const slow = await interactionsMs(page);
  say(
    `interaction to next paint, ${slower} x slower`,
    `p50 ${ms(share(slow, 0.5))}, p98 ${ms(share(slow, 0.98))}, most ${ms(Math.max(...slow))}, of ${slow.length} over 16 ms`,
  );
  const session = await page.context().newCDPSession(page);
  await session.send('HeapProfiler.collectGarbage');
  const { usedSize } = await session.send('Runtime.getHeapUsage');
  say('heap', `${roundNominal(usedSize / 1e6, 0)} MB`);
  if (opened.pageErrors.length > 0) say('errors of the page', opened.pageErrors.join('; '));
} finally {
  await opened.close();
  await closeSharedBrowser();
  rmSync(folder, { recursive: true, force: true });
}
