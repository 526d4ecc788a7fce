/** PDFs by an installed browser, without a window, reused for a while and then let go. */
import { chromium, type Browser } from 'playwright-core';
import type { DocumentToPrint } from '../../shared-types/host.ts';
import { dataTimeOf, withFixedDates } from '../pdf/fixedDates.ts';
import { oneAtATime } from '../oneAtATime.ts';
import { printAgent, printDeadlineMs, printPolicy, withinDeadline } from '../pdf/printRules.ts';
import { HostRefusal } from '../site/refusal.ts';
import { mustDropSandbox, quietArguments } from './browserArguments.ts';

export interface PdfMaker {
  make: (document: DocumentToPrint) => Promise<Uint8Array>;
  close: () => Promise<void>;
}

/** Never resolved and never asked for: the document is handed over in the answer to this address. */
const documentAddress = 'http://print.invalid/';

export function pdfMaker(options: { browser: string | null; deadlineMs?: number; idleMs?: number }): PdfMaker {
  const { browser: program, idleMs = 60_000 } = options;
  const inTurn = oneAtATime();
  let running: Promise<Browser> | null = null;
  let idle: NodeJS.Timeout | undefined;

  const close = async (): Promise<void> => {
    clearTimeout(idle);
    const closing = running;
    running = null;
    await (await closing?.catch(() => null))?.close();
  };
  const open = (): Promise<Browser> => {
    if (program === null) {
      throw new HostRefusal({
        code: 'not-available',
        message: 'Making a PDF needs Chrome, Edge, Brave or Chromium, and none was found on this machine.',
      });
    }
    running ??= start(program).then((browser) => {
      browser.on('disconnected', () => (running = null));
      return browser;
    });
    return running;
  };

  const make = async (document: DocumentToPrint): Promise<Uint8Array> => {
    clearTimeout(idle);
    const deadlineMs = options.deadlineMs ?? printDeadlineMs;
    try {
      const pdf = await withinDeadline(
        open().then((browser) => layOut(browser, document)),
        deadlineMs,
        () => failed(`it was not finished within ${deadlineMs / 1000} s`),
      );
      return withFixedDates(pdf, dataTimeOf(document.html));
    } catch (cause) {
      // A browser that failed once is not trusted with the next document.
      await close();
      throw cause instanceof HostRefusal ? cause : failed(firstLine(cause));
    } finally {
      idle = setTimeout(() => void close(), idleMs);
      idle.unref();
    }
  };
  return { make: (document) => inTurn(() => make(document)), close };
}

function start(program: string): Promise<Browser> {
  return chromium.launch({
    executablePath: program,
    headless: true,
    chromiumSandbox: !mustDropSandbox(),
    args: [...quietArguments, '--host-resolver-rules=MAP * ~NOTFOUND', `--user-agent=${printAgent}`],
    handleSIGINT: false,
    handleSIGTERM: false,
    handleSIGHUP: false,
  });
}

async function layOut(browser: Browser, { html, paper }: DocumentToPrint): Promise<Buffer> {
  const context = await browser.newContext({
    javaScriptEnabled: false,
    offline: true,
    serviceWorkers: 'block',
    acceptDownloads: false,
  });
  try {
    const page = await context.newPage();
    let served = false;
    await context.route('**/*', async (route) => {
      // The document itself, once; whatever it then asks for does not exist.
      if (served || route.request().url() !== documentAddress) return await route.abort();
      served = true;
      return await route.fulfill({
        contentType: 'text/html; charset=utf-8',
        headers: { 'Content-Security-Policy': printPolicy },
        body: html,
      });
    });
    await page.goto(documentAddress, { waitUntil: 'load' });
    await page.evaluate('document.fonts.ready.then(() => undefined)');
    return await page.pdf({ format: paper, preferCSSPageSize: true, printBackground: true, tagged: true });
  } finally {
    await context.close().catch(() => undefined);
  }
}

function failed(reason: string): HostRefusal {
  return new HostRefusal({ code: 'internal', message: `The PDF could not be made: ${reason}` });
}

function firstLine(cause: unknown): string {
  return (cause instanceof Error ? cause.message : String(cause)).split('\n')[0] ?? 'unknown';
}
