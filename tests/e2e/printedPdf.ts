/** A document printed by an installed browser, and the PDF read back: texts with their places and sizes. */
import { spawnSync } from 'node:child_process';
import { chromium, type Browser } from 'playwright-core';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { DocumentToPrint } from '../../shared-types/host.ts';
import { printPolicy } from '../../electron/pdf/printRules.ts';

export function openBrowser(): Promise<Browser> {
  return chromium.launch({
    executablePath: process.env['CHROMIUM_PATH'] ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking', '--host-resolver-rules=MAP * ~NOTFOUND'],
  });
}

/** Printed under the hosts' own rules: no script, nothing fetched. Whatever was asked for is told. */
export async function printed(
  browser: Browser,
  document: DocumentToPrint,
): Promise<{ bytes: Uint8Array; asked: string[] }> {
  const context = await browser.newContext({ javaScriptEnabled: false, serviceWorkers: 'block' });
  const asked: string[] = [];
  try {
    const page = await context.newPage();
    const address = 'http://print.invalid/';
    let served = false;
    await context.route('**/*', async (route) => {
      if (!served && route.request().url() === address) {
        served = true;
        return await route.fulfill({
          contentType: 'text/html; charset=utf-8',
          headers: { 'Content-Security-Policy': printPolicy },
          body: document.html,
        });
      }
      asked.push(route.request().url());
      return await route.abort();
    });
    page.on('dialog', (dialog) => void dialog.dismiss().then(() => asked.push('dialog')));
    await page.goto(address, { waitUntil: 'load' });
    await page.evaluate('document.fonts.ready.then(() => undefined)');
    const bytes = await page.pdf({ preferCSSPageSize: true, printBackground: true, tagged: true });
    return { bytes: new Uint8Array(bytes), asked };
  } finally {
    await context.close();
  }
}

export interface PrintedText {
  text: string;
  /** From the page's upper left corner, in mm; y of the base line. */
  xMm: number;
  yMm: number;
  widthMm: number;
  sizePt: number;
}

export interface PrintedPage {
  widthMm: number;
  heightMm: number;
  texts: PrintedText[];
  /** All of it, blanks made one. */
  text: string;
}

const mmPerPt = 25.4 / 72;

export async function readPages(bytes: Uint8Array): Promise<PrintedPage[]> {
  const task = getDocument({ data: bytes.slice(), isEvalSupported: false, verbosity: 0 });
  const pdf = await task.promise;
  const pages: PrintedPage[] = [];
  for (let number = 1; number <= pdf.numPages; number += 1) {
    const page = await pdf.getPage(number);
    const { width, height } = page.getViewport({ scale: 1 });
    const { items } = await page.getTextContent();
    const texts = items.flatMap((item): PrintedText[] => {
      if (!('str' in item) || item.str.trim() === '') return [];
      const [, , c = 0, d = 0, x = 0, y = 0] = item.transform as number[];
      return [
        {
          text: item.str,
          xMm: x * mmPerPt,
          yMm: (height - y) * mmPerPt,
          widthMm: item.width * mmPerPt,
          sizePt: Math.hypot(c, d),
        },
      ];
    });
    pages.push({
      widthMm: width * mmPerPt,
      heightMm: height * mmPerPt,
      texts,
      text: items
        .map((item) => ('str' in item ? item.str + (item.hasEOL ? ' ' : '') : ''))
        .join('')
        .replace(/\s+/g, ' '),
    });
  }
  await task.destroy();
  return pages;
}

/** Output of one of poppler's programs fed with a file, or null where it is not installed. */
export function poppler(
  program: 'pdfinfo' | 'pdffonts' | 'pdftoppm' | 'pdftotext',
  args: readonly string[],
): Buffer | null {
  const { status, stdout, error } = spawnSync(program, args, { maxBuffer: 256 * 1024 * 1024 });
  if (error !== undefined) return null;
  if (status !== 0) throw new Error(`${program} ended with ${status}`);
  return stdout;
}
