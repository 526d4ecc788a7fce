/** Manifests printed in one browser for a whole file of tests, and read back. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect } from 'vitest';
import { manifestDocument } from '../../renderer/features/manifest/manifestDocument.ts';
import { listRows } from './printedList.ts';
import type { DocumentToPrint } from '../../shared-types/host.ts';
import { openBrowser, printed, readPages, type PrintedPage } from './printedPdf.ts';
import { printRequest, type PrintCase } from './printPlan.ts';

export interface PrintedManifest {
  bytes: Uint8Array;
  pages: PrintedPage[];
  hash: string;
  asked: string[];
}

export interface Printing {
  print: (wanted: PrintCase) => Promise<PrintedManifest>;
  /** Any other document, as its PDF. */
  printed: (document: DocumentToPrint) => Promise<Uint8Array>;
  /** Path for a file that the tests leave behind for no longer than they run. */
  scratch: (name: string) => string;
}

export function printing(): Printing {
  let browser: Browser;
  let folder: string;
  beforeAll(async () => {
    browser = await openBrowser();
    folder = mkdtempSync(join(tmpdir(), 'bagwright-print-'));
  });
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  });
  return {
    async print(wanted) {
      const { bytes, asked } = await printed(browser, await manifestDocument(printRequest(wanted)));
      const pages = await readPages(bytes);
      const hash = /Content ([0-9a-f]{4} [0-9a-f]{4})/.exec(pages[0]?.text ?? '')?.[1] ?? '';
      return { bytes, pages, hash, asked };
    },
    printed: async (document) => (await printed(browser, document)).bytes,
    scratch: (name) => join(folder, name),
  };
}

export function expectSigned({ pages }: PrintedManifest, lines: number): void {
  const signed = pages.filter(({ text }) => text.includes('Packed by'));
  expect(signed).toHaveLength(1);
  const [page] = signed;
  if (page === undefined) return;
  for (const who of ['Packed by', 'Counted again by another person', 'Received back by'])
    expect(page.text).toContain(who);
  for (const field of ['name', 'signature', 'date', 'time']) {
    expect(
      page.texts.filter(({ text }) => text === field),
      field,
    ).toHaveLength(3);
  }
  expect(page.text).toContain('End of list, ');
  if (lines > 0) expect(listRows(page).length).toBeGreaterThanOrEqual(1);
  expect(pages.at(-1)?.text).toMatch(new RegExp(`End of manifest, \\d+ pieces? in ${lines} lines?\\.`));
  expect(pages.slice(0, -1).filter(({ text }) => text.includes('End of manifest'))).toEqual([]);
}
