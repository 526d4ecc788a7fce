/** The main job, once through, on the production build: a plan in, a proven bag, and the manifest that prints. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Download, Page } from 'playwright-core';
import { afterAll, describe, expect, it } from 'vitest';
import type { BagResult } from '../../shared-types/bag.ts';
import { runThroughNpm } from '../electron/headless/spawnCommand.ts';
import { openDemo } from './driveWindow.ts';
import { poppler } from './printedPdf.ts';
import { openBuilt } from './support/openBuilt.ts';

const folder = mkdtempSync(join(tmpdir(), 'bagwright-main-job-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function download(page: Page, button: string): Promise<{ path: string; bytes: Buffer }> {
  const waiting = page.waitForEvent('download');
  await page.getByRole('button', { name: button }).click();
  const file: Download = await waiting;
  const path = join(folder, file.suggestedFilename());
  await file.saveAs(path);
  return { path, bytes: readFileSync(path) };
}

const demos = [
  { demo: 'Skua Rock light', file: 'data/demo/skua-rock-light.json' },
  { demo: 'Tarn array', file: 'data/demo/tarn-array.json' },
];

describe('from a plan to a printed manifest', () => {
  it.for(demos)(
    '$demo: the window and the command line give one bag, and it prints',
    async ({ demo, file }, context) => {
      const headless = await runThroughNpm(['bag', file]);
      expect(headless).toMatchObject({ exit: 0, stderr: '' });
      const expected = JSON.parse(headless.stdout) as BagResult;
      expect(expected.objective?.gap).toBe(0);

      const built = await openBuilt();
      try {
        const { page } = built;
        await page.getByRole('heading', { name: 'What do you have in front of you?' }).waitFor();
        await openDemo(page, demo);
        await page.getByRole('navigation').getByText('Bag', { exact: true }).click();
        await page.getByRole('button', { name: /^Plan/ }).first().click();
        await page.getByRole('heading', { name: /^Proved least:/ }).waitFor({ timeout: 90_000 });
        const saved = JSON.parse((await download(page, 'Save result as JSON…')).bytes.toString('utf8')) as BagResult;
        expect(saved).toEqual(expected);

        await page.getByText('Preview manifest', { exact: true }).click();
        await page
          .getByText(/Page 1 of \d+/)
          .first()
          .waitFor({ timeout: 60_000 });
        const pdf = await download(page, 'Save PDF…');
        const printed = page.getByRole('link', { name: /\/document\/.+\.pdf$/ });
        await page.getByRole('button', { name: 'Print…' }).click();
        const address = await printed.getAttribute('href');
        const opened = await page.request.get(address ?? '');
        expect(Buffer.compare(await opened.body(), pdf.bytes)).toBe(0);

        expect(built.requestsOutside).toEqual([]);
        expect(built.pageErrors.filter((error) => !error.includes('Permissions-Policy'))).toEqual([]);

        const text = poppler('pdftotext', ['-layout', pdf.path, '-'])?.toString('utf8');
        if (text === undefined) return context.skip('poppler is not installed: the printed words were not read');
        const [outing] = expected.outings;
        for (const item of outing?.items ?? []) expect(text).toContain(item.id);
        expect(text).toMatch(/Page 1 of \d+/);
        expect(text).toContain('Torque and lifting can hurt people.');
        return undefined;
      } finally {
        await built.close();
      }
    },
  );
});
