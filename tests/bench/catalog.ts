/**
 * The catalog at fifty thousand items, with the production page, the real server and the real store:
 * `npx tsx tests/bench/catalog.ts`. Items come in through the page's own import, keys are pressed one by one and timed from
 * the key to the painted rows, and the table is scrolled by its wheel. A number behind the command sets how many items.
 */
import { writeFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { exactCsvText } from '../../renderer/engine/sheet/csvText.ts';
import { roundNominal } from '../../renderer/engine/units/index.ts';
import { closeSharedBrowser, openBuilt } from '../e2e/support/openBuilt.ts';

declare global {
  interface Window {
    catalogTasksMs?: number[];
    resultMs?: number[];
    frameGapsMs?: number[];
  }
}

const items = Number(process.argv[2] ?? 50_000);
const patienceMs = 300_000;
const say = (what: string, text: string): void => void process.stdout.write(`${what.padEnd(40)} ${text}\n`);
const ms = (value: number): string => `${roundNominal(value, 0)} ms`;

function share(values: readonly number[], part: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.ceil(part * sorted.length) - 1)] ?? Number.NaN;
}

/** Sizes, names and places as varied as a depot's; every figure is invented. */
function tableOf(count: number, from: number): string {
  const columns = ['code', 'kind', 'name', 'drive', 'opening', 'openingSize', 'length', 'outsideDiameter'];
  const more = ['ratedTorque', 'mass', 'onHand', 'keptAt', 'notes', 'thread', 'head', 'acrossFlats'];
  const rows = Array.from({ length: count }, (_, at) => {
    const n = from + at;
    const place = `tray ${n % 400}`;
    if (n % 3 === 0)
      return [
        `F-${n}`,
        'fastener',
        `Bolt ${n} of row ${n % 97}`,
        '',
        '',
        '',
        '',
        '',
        '',
        '0.02 kg',
        String(n % 40),
        place,
        `Invented ${n}.`,
        `M${6 + (n % 5) * 2}`,
        'hex',
        `${10 + (n % 9)} mm`,
      ];
    const size = `${8 + (n % 24)} mm`;
    return [
      `S-${n}`,
      'socket',
      `Socket ${n}, bay ${n % 31}`,
      '3/8 in',
      'hex6',
      size,
      `${20 + (n % 180)} mm`,
      '22 mm',
      '100 N·m',
      '0.15 kg',
      String(n % 9),
      place,
      `Invented ${n}.`,
      '',
      '',
      '',
    ];
  });
  return exactCsvText([...columns, ...more], rows);
}

async function bringIn(page: Page, file: string): Promise<{ triedMs: number; keptMs: number; openedMs: number }> {
  await page.getByRole('button', { name: 'Bring in…' }).click();
  const dialog = page.getByRole('dialog', { name: 'Bring items in' });
  const input = dialog.locator('input[type=file]');
  await input.waitFor({ state: 'attached', timeout: patienceMs });
  let began = performance.now();
  await input.setInputFiles(file);
  const tryAll = dialog.getByRole('button', { name: 'Try all rows' });
  await tryAll.waitFor({ timeout: patienceMs });
  const openedMs = performance.now() - began;
  began = performance.now();
  await tryAll.click();
  const write = dialog.getByRole('button', { name: /^Add \d+ items/ });
  await write.waitFor({ timeout: patienceMs });
  const triedMs = performance.now() - began;
  began = performance.now();
  await write.click();
  await dialog.getByRole('heading', { name: /^Added/ }).waitFor({ timeout: patienceMs });
  const keptMs = performance.now() - began;
  await dialog.getByRole('button', { name: 'Close' }).last().click();
  return { triedMs, keptMs, openedMs };
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
  await page.evaluate(() => (location.hash = '#/catalog'));
  await page.getByRole('button', { name: 'Add shelf' }).first().click();
  await page.getByRole('textbox', { name: /^Name/ }).fill('Depot');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Bring in…' }).waitFor();
  const few = Math.min(10_000, Math.floor(items / 5));
  await importTold(page, folder, few, 0);
  await importTold(page, folder, items - few, few);
  await page.getByText(`${items} shown`).waitFor({ timeout: patienceMs });
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
