/**
 * From an empty program to a printed manifest through the screens alone: a task, its stock, its outing, its steps, the
 * bag, the print. Every figure is invented.
 */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { poppler } from './printedPdf.ts';
import { openBuilt } from './support/openBuilt.ts';

/** Fills the fields of the form that is open, each by the beginning of its label; a choice by its words. */
async function fill(page: Page, entries: readonly (readonly [label: string, value: string])[]): Promise<void> {
  for (const [label, value] of entries) {
    const field = page
      .locator('form')
      .getByLabel(new RegExp(`^${label}`))
      .and(page.locator('input, textarea, select'))
      .first();
    // Optional fields may be folded away under a summary.
    if (!(await field.isVisible())) {
      await page.locator('details:not([open])', { has: field }).first().locator('summary').first().click();
    }
    const tag = await field.evaluate((element) => element.tagName);
    if (tag === 'SELECT') await field.selectOption({ label: value });
    else await field.fill(value);
  }
}

async function saved(page: Page): Promise<void> {
  await page
    .getByRole('contentinfo')
    .getByText(/^Saved \d\d:\d\d$/)
    .waitFor();
}

async function addItem(page: Page, kind: string, entries: readonly (readonly [string, string])[]): Promise<void> {
  await page.getByRole('button', { name: 'Add item', exact: true }).first().click();
  await fill(page, [['Kind', kind], ...entries]);
  await page
    .getByRole('button', { name: /^(Add|Save) / })
    .last()
    .click();
  const [, code = ''] = entries.find(([label]) => label === 'Code') ?? [];
  await page
    .getByRole('grid', { name: 'Items' })
    .getByRole('row', { name: new RegExp(code) })
    .waitFor();
  await saved(page);
}

it(
  'goes from the empty program to a printed manifest, and finds it all again',
  { timeout: 240_000 },
  async (context) => {
    const folder = mkdtempSync(join(tmpdir(), 'bagwright-from-nothing-'));
    const built = await openBuilt();
    try {
      const { page } = built;
      await page.getByRole('heading', { name: 'What do you have in front of you?' }).waitFor();
      await page.getByRole('textbox', { name: /Your name/ }).fill('A. Tester');

      await page.getByRole('button', { name: 'Begin a task…' }).click();
      await fill(page, [
        ['Name', 'Cover change'],
        ['Code', 'T-1'],
        ['Site in words', 'Test stand'],
        ['Roles of the first outing', 'Lead'],
        ['A new shelf for it', 'Shop'],
      ]);
      await page.getByRole('button', { name: 'Add task', exact: true }).click();
      await page.getByRole('heading', { level: 1, name: 'Cover change' }).waitFor();
      await saved(page);

      await page.getByRole('link', { name: 'Catalog', exact: true }).click();
      await addItem(page, 'Fastener', [
        ['Code', 'F-1'],
        ['Name', 'Cover screw'],
        ['Thread', '3/8-24 UNF'],
        ['Head', 'hex head'],
        ['Width across flats', '9/16 in'],
      ]);
      await addItem(page, 'Socket or bit', [
        ['Code', 'S-1'],
        ['Name', 'Socket nine sixteenths'],
        ['Drive', '3/8 in'],
        ['Opening', '6-point'],
        ['Size of the opening', '9/16 in'],
        ['Effective length', '1.13 in'],
        ['Outside diameter', '0.8 in'],
        ['Rated torque', '150 lbf·ft'],
        ['Mass', '74 g'],
        ['On hand', '1'],
      ]);
      await addItem(page, 'Torque tool', [
        ['Code', 'TT-1'],
        ['Name', 'Torque wrench'],
        ['Drive', '3/8 in'],
        ['Range, least', '10 lbf·ft'],
        ['Range, most', '75 lbf·ft'],
        ['Increment', '0.5 lbf·ft'],
        ['Accuracy of the reading', '0.04'],
        ['Mass', '0.9 kg'],
        ['On hand', '1'],
      ]);
      await addItem(page, 'Bag', [
        ['Code', 'B-1'],
        ['Name', 'Rope bag'],
        ['Mass, empty', '0.5 kg'],
        ['Mass limit', '6 kg'],
      ]);

      await page.getByRole('link', { name: 'Work', exact: true }).click();
      await page.getByRole('link', { name: /^Outings/ }).click();
      await page.getByRole('button', { name: 'Edit outing', exact: true }).click();
      await page.getByRole('button', { name: 'Add a bag', exact: true }).click();
      await fill(page, [['Bag 1', 'B-1']]);
      await page.keyboard.press('Escape');
      await page.getByRole('button', { name: 'Save outing', exact: true }).click();
      await saved(page);

      await page.getByRole('link', { name: /^Steps/ }).click();
      await page.getByRole('button', { name: 'Add the first step', exact: true }).click();
      await fill(page, [
        ['Name', 'Tighten the cover'],
        ['Action', 'Tighten'],
        ['Fastener', 'F-1'],
        ['Count', '6'],
        ['Callout, from', '30 lbf·ft'],
        ['Callout, to', '35 lbf·ft'],
        ['Source of the callout', 'Invented for the test'],
        ['Depth to the head', '0.5 in'],
        ['Time', '12'],
      ]);
      await page
        .getByRole('button', { name: /^Add step$|^Save step$/ })
        .last()
        .click();
      await page.getByRole('heading', { level: 1, name: /Tighten the cover/ }).waitFor();
      await page.getByText('Reached', { exact: true }).first().waitFor();
      await saved(page);

      await page.getByRole('navigation', { name: 'Job line' }).getByText('Bag', { exact: true }).click();
      await page.getByRole('button', { name: 'Plan the bag' }).click();
      await page.getByRole('heading', { name: /^Proved least:/ }).waitFor({ timeout: 90_000 });
      await page.getByText('Preview manifest', { exact: true }).click();
      await page
        .getByText(/Page 1 of \d+/)
        .first()
        .waitFor({ timeout: 60_000 });
      const waiting = page.waitForEvent('download');
      await page.getByRole('button', { name: 'Save PDF…' }).click();
      const path = join(folder, 'manifest.pdf');
      await (await waiting).saveAs(path);
      const printed = page.getByRole('link', { name: /\/document\/.+\.pdf$/ });
      await page.getByRole('button', { name: 'Print…' }).click();
      const opened = await page.request.get((await printed.getAttribute('href')) ?? '');
      expect(Buffer.compare(await opened.body(), readFileSync(path))).toBe(0);
      await saved(page);

      // All of it is there when the window is opened again.
      await page.goto(`${built.origin}/#/bag`);
      await page.reload();
      await page.getByRole('heading', { name: /^Proved least:/ }).waitFor({ timeout: 60_000 });
      expect(await page.getByRole('contentinfo').textContent()).toContain('A. Tester');

      expect(built.requestsOutside).toEqual([]);
      expect(built.pageErrors.filter((error) => !error.includes('Permissions-Policy'))).toEqual([]);
      const text = poppler('pdftotext', ['-layout', path, '-'])?.toString('utf8');
      if (text === undefined) return context.skip('poppler is not installed: the printed words were not read');
      for (const word of ['Cover change', 'TT-1', 'S-1', 'Rope bag', 'Tighten the cover', 'A. Tester'])
        expect(text).toContain(word);
      return undefined;
    } finally {
      await built.close();
      rmSync(folder, { recursive: true, force: true });
    }
  },
);
