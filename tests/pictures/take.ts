/** Takes the README's pictures from the production build: `npx tsx tests/pictures/take.ts`. */
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { openDemo } from '../e2e/driveWindow.ts';
import { closeSharedBrowser, openBuilt } from '../e2e/support/openBuilt.ts';
import { root } from '../support/tracked.ts';

const viewport = { width: 1280, height: 800 };

async function picture(page: Page, name: string): Promise<void> {
  await page.screenshot({ path: join(root, 'renderer/pictures', `${name}.png`) });
}

async function walk(): Promise<void> {
  const { page, close } = await openBuilt({ viewport, colorScheme: 'light', reducedMotion: 'reduce' });
  try {
    await page.getByRole('heading', { name: 'What do you have in front of you?' }).waitFor();
    await picture(page, 'first-page');
    await openDemo(page, 'Skua Rock light');
    await page.evaluate(() => (location.hash = '#/front'));
    await page.getByRole('heading', { name: 'Who has what' }).waitFor();
    await page.waitForTimeout(500);
    await picture(page, 'front');
    await page.evaluate(() => (location.hash = '#/catalog'));
    await page
      .getByRole('row', { name: /Ratchet/ })
      .first()
      .click();
    await page.waitForTimeout(500);
    await picture(page, 'catalog');
    await page.evaluate(() => (location.hash = '#/steps'));
    const steps = page.getByRole('grid', { name: 'Steps' });
    await steps.waitFor();
    await steps.getByText('Cover screws, rock side: loosen').click();
    await page
      .getByText(/\d+ reached/)
      .first()
      .waitFor();
    await picture(page, 'steps');
    await page.getByRole('navigation').getByText('Bag', { exact: true }).click();
    await page.getByRole('button', { name: /^Plan/ }).first().click();
    await page.getByRole('heading', { name: /^Proved least:/ }).waitFor({ timeout: 120_000 });
    await picture(page, 'bag');
    await page.getByText('Preview manifest', { exact: true }).click();
    await page
      .getByText(/Page 1 of \d+/)
      .first()
      .waitFor({ timeout: 60_000 });
    await page.waitForTimeout(1500);
    await picture(page, 'manifest');
    await page.evaluate(() => (location.hash = '#/bench/preload'));
    await page.getByRole('img', { name: /^Preload against seating torque/ }).waitFor();
    await page.waitForTimeout(500);
    await picture(page, 'bench');
    await page.emulateMedia({ colorScheme: 'dark' });
    await page.keyboard.press('Control+k');
    await page.getByRole('combobox', { name: 'Find or do' }).fill('socket');
    await page
      .getByRole('option', { name: /socket/i })
      .first()
      .waitFor();
    await picture(page, 'finder-dark');
  } finally {
    await close();
    await closeSharedBrowser();
  }
}

await walk();
