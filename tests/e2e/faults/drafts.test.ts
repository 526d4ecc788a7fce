/** R28 with two windows: one form half written in each, differently, when everything ends at once. */
import { setTimeout as pause } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { buildIfNeeded, siteFolder } from '../../../electron/launch/build.ts';
import { KeptProgram } from '../support/keptProgram.ts';

const name = (page: Page) => page.getByLabel('Name of the shelf');
const isBack = (page: Page) => page.locator('form').getByText('Entries that were not saved are back.');
const offers = (page: Page) =>
  page.locator('form').getByText(/^Other entries for this form, typed .* in another window:/);

async function openForm(page: Page, address: string): Promise<void> {
  await page.goto(`${address}#/catalog`);
  await page.getByRole('button', { name: 'Add shelf' }).first().click();
  await name(page).waitFor();
}

/** What a window has of the form at once, and what it shows when it is asked for the rest. */
async function textsIn(page: Page): Promise<string[]> {
  await isBack(page).waitFor();
  const first = await name(page).inputValue();
  await offers(page).waitFor();
  await page.locator('form').getByRole('button', { name: 'Show them instead' }).click();
  await expect.poll(() => name(page).inputValue()).not.toBe(first);
  return [first, await name(page).inputValue()];
}

it('has both texts again, in both windows, after the windows were closed and after everything was killed', async () => {
  await buildIfNeeded();
  const program = await KeptProgram.inNewFolder();
  const twoWindows = async (): Promise<[Page, Page]> => {
    const { page, browser } = await program.start(siteFolder);
    return [page, await browser.context.newPage()];
  };
  try {
    const [quay, loft] = await twoWindows();
    await openForm(quay, program.address);
    await name(quay).fill('Quay');
    await openForm(loft, program.address);
    await name(loft).fill('Loft');
    await name(quay).fill('Quay, by the crane');
    await pause(1_000);
    await program.killBoth();

    const [one, other] = await twoWindows();
    await openForm(one, program.address);
    expect(await textsIn(one)).toEqual(['Quay, by the crane', 'Loft']);
    await openForm(other, program.address);
    expect((await textsIn(other)).toSorted()).toEqual(['Loft', 'Quay, by the crane']);
    await pause(1_000);
    await program.stop();

    const [last] = await twoWindows();
    await openForm(last, program.address);
    const texts = await textsIn(last);
    expect(texts.toSorted()).toEqual(['Loft', 'Quay, by the crane']);
    // What is saved is gone from the form, and what was not is in it.
    await last.locator('form').getByRole('button', { name: 'Add shelf' }).click();
    await name(last).waitFor({ state: 'detached' });
    await last.getByRole('button', { name: 'Add shelf' }).first().click();
    await expect.poll(() => name(last).inputValue()).toBe(texts[0]);
  } finally {
    await program.end();
  }
});
