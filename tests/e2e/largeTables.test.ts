/**
 * A table of many rows: kept, undone and done again in one step each, while the window answers the hand. With
 * `BAGWRIGHT_ROWS=20000` of as many as a list takes.
 */
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { openDemo } from './driveWindow.ts';
import { openBuilt } from './support/openBuilt.ts';

const count = Number(process.env['BAGWRIGHT_ROWS'] ?? 6000);
const patienceMs = 120_000;
const longestMs = 200;

declare global {
  interface Window {
    /** Of every task over 50 ms, how long it was. */
    longTasksMs: number[];
    /** The same piece of work again and again: what it takes longer than at its best is other work of the machine. */
    bareMs: number[];
  }
}

async function watch(page: Page): Promise<void> {
  await page.addInitScript(() => {
    window.longTasksMs = [];
    window.bareMs = [];
    new PerformanceObserver((list) => {
      for (const { duration } of list.getEntries()) window.longTasksMs.push(duration);
    }).observe({ type: 'longtask' });
    setInterval(() => {
      const began = performance.now();
      let sum = 0;
      for (let n = 0; n < 2_000_000; n += 1) sum += Math.sqrt(n);
      if (sum > 0) window.bareMs.push(performance.now() - began);
    }, 250);
  });
}

/** The longest task of a deed, and the most it may take on a machine as busy as it was then. */
async function longest(page: Page, deed: () => Promise<void>): Promise<{ ms: number; mostMs: number }> {
  await page.evaluate(() => {
    window.longTasksMs.length = 0;
    window.bareMs.splice(1);
  });
  await deed();
  return page.evaluate((limitMs) => {
    const bare = window.bareMs.toSorted((a, b) => a - b);
    const busy = (bare[Math.floor(bare.length * 0.9)] ?? 1) / (bare[0] ?? 1);
    return { ms: Math.max(0, ...window.longTasksMs), mostMs: limitMs * Math.max(1, busy) };
  }, longestMs);
}

function pressWhenThere(page: Page, name: string): Promise<void> {
  return page.evaluate(
    (words) =>
      new Promise<void>((done) => {
        const look = (): void => {
          const button = [...document.querySelectorAll('button')].find(({ textContent }) => textContent === words);
          if (button === undefined) {
            setTimeout(look, 1);
            return;
          }
          button.click();
          done();
        };
        look();
      }),
    name,
  );
}

it(
  `keeps, undoes and does again ${count} callouts without a long task, and leaves nothing where it is stopped`,
  {
    timeout: 400_000,
  },
  async () => {
    const built = await openBuilt({ blank: true });
    try {
      const { page } = built;
      page.setDefaultTimeout(patienceMs);
      await watch(page);
      await page.goto(built.origin);
      await page.getByRole('heading', { name: 'What do you have in front of you?' }).waitFor();
      await openDemo(page, 'Skua Rock light');
      await page.evaluate(() => (location.hash = '#/callouts'));
      await page.getByRole('button', { name: 'Import…' }).first().click();
      const rows = Array.from(
        { length: count },
        (_, at) => `C-${at},M10x1.5,${40 + (at % 9)} N·m,50 N·m,Deck ${at % 77}`,
      );
      await page.getByLabel(/^A file/).setInputFiles({
        ...{ name: 'list.csv', mimeType: 'text/csv' },
        buffer: Buffer.from(['id,thread,torqueMin,torqueMax,Where', ...rows].join('\r\n')),
      });
      await page.getByRole('button', { name: 'Try all rows' }).click();
      const add = page.getByRole('button', { name: `Add ${count} callouts` });
      // From within the page: a hand from outside may come too late.
      const stopping = pressWhenThere(page, 'Stop writing');
      await add.click();
      await stopping;
      await page.getByRole('alert').getByText('Stopped. Nothing of the table was written').waitFor();
      await page.getByText('No callouts yet').waitFor();

      const all = page.getByText(`${count} of ${count}`).first();
      const judged = page.getByText(/^Judging/).first();
      const kept = await longest(page, async () => {
        await add.click();
        await page.getByRole('heading', { name: `Added ${count} callouts` }).waitFor();
        await page.getByRole('button', { name: 'Close' }).last().click();
        await all.waitFor();
      });
      await judged.waitFor({ state: 'hidden' });
      const undone = await longest(page, async () => {
        await page.keyboard.press('Control+z');
        await page.getByText('No callouts yet').waitFor();
      });
      const again = await longest(page, async () => {
        await page.keyboard.press('Control+y');
        await all.waitFor();
      });
      for (const [what, { ms, mostMs }] of Object.entries({ kept, undone, again }))
        expect(ms, `${what}: ${JSON.stringify({ kept, undone, again })}`).toBeLessThanOrEqual(mostMs);
      expect(built.pageErrors).toEqual([]);
    } finally {
      await built.close();
    }
  },
);
