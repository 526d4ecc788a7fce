/** R5 at the window: the disk is full, and no one is told that it was saved. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { fillingDisk } from '../support/fillingDisk.ts';
import { openBuilt } from '../support/openBuilt.ts';
import { rawRecords } from '../support/rawRecords.ts';

declare global {
  interface Window {
    /** Everything that the save state said since it was watched, with when. */
    saidOfSaving?: { text: string; atMs: number }[];
  }
}

const strip = (page: Page) => page.getByRole('contentinfo').getByRole('status');

async function addShelf(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name: 'Add shelf' }).first().click();
  await page.getByLabel('Name of the shelf').fill(name);
  await page.locator('form').getByRole('button', { name: 'Add shelf' }).click();
}

function watchSaving(page: Page): Promise<void> {
  return page.evaluate(() => {
    const status = document.querySelector('.bw-strip [role=status]');
    const said: { text: string; atMs: number }[] = [];
    window.saidOfSaving = said;
    const note = (): void => void said.push({ text: status?.textContent ?? 'gone', atMs: performance.now() });
    if (status !== null)
      new MutationObserver(note).observe(status, { subtree: true, childList: true, characterData: true });
  });
}

function linesOf(folder: string): string[] {
  const entries = join(folder, 'entries-1');
  return readdirSync(entries)
    .filter((name) => name.endsWith('.jsonl'))
    .flatMap((name) => readFileSync(join(entries, name), 'utf8').split('\n'))
    .filter((line) => line !== '');
}

it.each(['write', 'datasync'] as const)(
  'says NOT SAVED within a second of a full disk and never Saved, until it is: full at %s',
  async (call) => {
    const disk = fillingDisk();
    const built = await openBuilt({ disk });
    try {
      const { page, origin } = built;
      await page.goto(`${origin}/#/catalog`);
      await addShelf(page, 'Case A');
      await strip(page)
        .getByText(/^Saved \d\d:\d\d$/)
        .waitFor();
      const before = linesOf(built.journal).length;

      const took: number[] = [];
      for (let n = 1; n <= 5; n += 1) {
        await watchSaving(page);
        disk.fullAt = call;
        const pressedMs = await page.evaluate(() => performance.now());
        await addShelf(page, `Case B${n}`);
        await strip(page).getByText('NOT SAVED', { exact: true }).waitFor({ timeout: 5_000 });
        const said = await page.evaluate(() => window.saidOfSaving ?? []);
        const pressed = said.find(({ text }) => text.includes('Saving'))?.atMs ?? pressedMs;
        const refused = said.find(({ text }) => text.includes('NOT SAVED'));
        // Far under the ten seconds after which an answer that never came is given up; the rest is for a busy machine.
        took.push((refused?.atMs ?? Number.NaN) - pressed);
        expect(took.at(-1), JSON.stringify(said)).toBeLessThan(4000);
        expect(
          said.filter(({ text }) => /Saved \d/.test(text)),
          JSON.stringify(said),
        ).toEqual([]);
        expect(linesOf(built.journal), 'a line of an act that was refused').toHaveLength(before + n - 1);
        // What was saved is still there to be read.
        await page.getByLabel('Name of the shelf').waitFor();
        expect((await rawRecords(page, 'bagwright-1')).shelves).toHaveLength(n);

        disk.fullAt = null;
        await page.getByRole('button', { name: 'Save again' }).click();
        await strip(page)
          .getByText(/^Saved \d\d:\d\d$/)
          .waitFor();
        expect(linesOf(built.journal)).toHaveLength(before + n);
        const names = (await rawRecords(page, 'bagwright-1')).shelves.map(({ name }) => name);
        expect(names).toContain(`Case B${n}`);
        await page.reload();
        await page
          .getByRole('option', { name: `Case B${n}` })
          .first()
          .waitFor({ state: 'attached' });
        await strip(page).getByText('Nothing to save').waitFor();
      }
      // One of them may meet a busy machine; the middle one does not.
      expect(took.toSorted((a, b) => a - b)[2], took.join(', ')).toBeLessThan(1000);
    } finally {
      await built.close();
    }
  },
);
