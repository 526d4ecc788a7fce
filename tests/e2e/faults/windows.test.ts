/** R13, R14 and R15 with the real server: one window writes, the other says so, and neither writes over the other. */
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { expectSurvived } from '../../campaign/support/survived.ts';
import { countedTwice } from '../../campaign/twoWindows.ts';
import { openBuilt } from '../support/openBuilt.ts';
import { rawRecords } from '../support/rawRecords.ts';

const strip = (page: Page) => page.getByRole('contentinfo').getByRole('status');
const saved = (page: Page) => strip(page).getByText(/^Saved \d\d:\d\d$/);
const banner = (page: Page) => page.getByRole('region', { name: 'Read only' });
const writeHere = (page: Page) => banner(page).getByRole('button', { name: 'Save from this window' }).click();

/** Takes the writing over, where the window has not got it. */
async function makeWriter(page: Page): Promise<void> {
  if (await banner(page).isVisible()) await writeHere(page);
}

async function addShelf(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name: 'Add shelf' }).first().click();
  await page.getByLabel('Name of the shelf').fill(name);
  await page.locator('form').getByRole('button', { name: 'Add shelf' }).click();
}

const shelvesOf = async (page: Page): Promise<string[]> =>
  (await rawRecords(page, 'bagwright-1')).shelves.map(({ name }) => name).toSorted();

it('lets one window write, keeps the other reading, and hands over when asked', async () => {
  const built = await openBuilt();
  try {
    const { page: first, context, origin } = built;
    await first.goto(`${origin}/#/catalog`);
    await addShelf(first, 'First');
    await saved(first).waitFor();
    const second = await context.newPage();
    await second.goto(`${origin}/#/catalog`);
    await banner(second).waitFor();
    expect(await banner(first).count()).toBe(0);

    await addShelf(second, 'Of the reader');
    await second.getByRole('alert').first().waitFor();
    expect(await strip(second).textContent()).toContain('NOT SAVED');
    expect(await shelvesOf(first)).toEqual(['First']);

    await writeHere(second);
    await banner(first).waitFor();
    await banner(second).waitFor({ state: 'detached' });
    await second.locator('form').getByRole('button', { name: 'Add shelf' }).click();
    await saved(second).waitFor();
    expect(await shelvesOf(first)).toEqual(['First', 'Of the reader']);
    // The one that gave way goes on showing what is kept, and does not write either.
    await first.getByRole('option', { name: 'Of the reader' }).first().waitFor({ state: 'attached' });
    await addShelf(first, 'Of the former');
    await first.getByRole('alert').first().waitFor();
    expect(await shelvesOf(second)).toEqual(['First', 'Of the reader']);
  } finally {
    await built.close();
  }
});

it('shows both versions of a record that two windows edited, and writes over neither', async () => {
  const built = await openBuilt();
  try {
    const { page: first, context, origin } = built;
    await first.goto(`${origin}/#/catalog`);
    await addShelf(first, 'Depot');
    await saved(first).waitFor();
    const second = await context.newPage();
    await second.goto(`${origin}/#/catalog`);
    await banner(second).waitFor();

    const name = (page: Page) => page.getByLabel('Name of the shelf');
    const rename = async (page: Page, to: string): Promise<void> => {
      await page.getByRole('button', { name: 'Rename shelf' }).click();
      await name(page).fill(to);
    };
    const save = (page: Page) => page.getByRole('button', { name: 'Save shelf' }).click();
    for (let n = 1; n <= 3; n += 1) {
      const [one, other] = n % 2 === 1 ? [first, second] : [second, first];
      await rename(one, `Depot by one, ${n}`);
      await makeWriter(other);
      await banner(one).waitFor();
      await rename(other, `Depot by other, ${n}`);
      await save(other);
      await expect.poll(() => shelvesOf(one)).toEqual([`Depot by other, ${n}`]);

      await writeHere(one);
      await save(one);
      const conflict = one.getByRole('dialog', { name: 'Changed meanwhile: nothing was saved' });
      await conflict.waitFor();
      const shown = await conflict.innerText();
      expect(shown).toContain(`Depot by one, ${n}`);
      expect(shown).toContain(`Depot by other, ${n}`);
      expect(await shelvesOf(one), 'before anyone has chosen').toEqual([`Depot by other, ${n}`]);
      await conflict.getByRole('button', { name: n === 2 ? 'Keep what is kept now' : 'Put mine in its place' }).click();
      await conflict.waitFor({ state: 'detached' });
      await expect.poll(() => shelvesOf(one)).toEqual([n === 2 ? `Depot by other, ${n}` : `Depot by one, ${n}`]);
    }
  } finally {
    await built.close();
  }
});

it('keeps every one of the changes that two windows make to one record at once', async () => {
  await expectSurvived(countedTwice, 2);
});
