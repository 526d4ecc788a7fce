/** The production build, served by the real server, shown by the installed Chromium without a window. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright-core';
import type { Disk } from '../../../electron/files/disk.ts';
import { journalDesk } from '../../../electron/journal/desk.ts';
import { mustDropSandbox, quietArguments } from '../../../electron/launch/browserArguments.ts';
import { buildIfNeeded, siteFolder, siteMap } from '../../../electron/launch/build.ts';
import { findBrowser } from '../../../electron/launch/findBrowser.ts';
import { pdfMaker } from '../../../electron/launch/pdf.ts';
import { startServer, type RunningServer } from '../../../electron/launch/server.ts';
import { helloKey } from '../../../electron/launch/token.ts';
import { loadSite, readMap } from '../../../electron/site/buildMap.ts';

export interface OpenedBuild {
  page: Page;
  context: BrowserContext;
  origin: string;
  server: RunningServer;
  /** Folder of the journal. */
  journal: string;
  /** Every request of the browser that was not for the program itself. */
  requestsOutside: string[];
  /** Errors the page wrote to its console or threw. */
  pageErrors: string[];
  close: () => Promise<void>;
}

export interface OpenOptions {
  viewport?: { width: number; height: number };
  colorScheme?: 'light' | 'dark';
  reducedMotion?: 'reduce' | 'no-preference';
  /** A profile to keep between openings; the database belongs to the origin, so give the same port with it. */
  profile?: string;
  /** A journal to keep between openings; belongs with a kept profile. */
  journal?: string;
  /** In the place of the machine's own: one that a test fills. */
  disk?: Disk;
  /** 0 takes a free one. The program itself has one port only. */
  port?: number;
  /** The page is left blank: the test wants to be there before the program is. */
  blank?: boolean;
}

export function chromiumHere(): string {
  const browser = findBrowser();
  if (browser === null) throw new Error('These tests need an installed Chromium; none was found');
  return browser;
}

export async function openBuilt(options: OpenOptions = {}): Promise<OpenedBuild> {
  await buildIfNeeded();
  const scratch = mkdtempSync(join(tmpdir(), 'bagwright-test-'));
  const pdf = pdfMaker({ browser: chromiumHere() });
  const journalFolder = options.journal ?? join(scratch, 'journal');
  const journal = journalDesk({
    folder: journalFolder,
    ...(options.disk === undefined ? {} : { disk: options.disk }),
  });
  const server = await startServer({
    port: options.port ?? 0,
    site: loadSite(siteFolder, readMap(siteMap)),
    version: '0.0.0-test',
    dataFolder: scratch,
    helloKey: helloKey(scratch),
    journal,
    makePdf: pdf.make,
  });
  const context = await openContext(options);
  const requestsOutside: string[] = [];
  const pageErrors: string[] = [];
  context.on('request', (request) => {
    const url = request.url();
    if (!url.startsWith(`${server.origin}/`) && !/^(?:data|blob|about):/.test(url)) requestsOutside.push(url);
  });
  context.on('weberror', (error) => pageErrors.push(error.error().message));
  context.on('console', (message) => {
    if (message.type() === 'error') pageErrors.push(message.text());
  });
  const page = context.pages()[0] ?? (await context.newPage());
  if (options.blank !== true) await page.goto(`${server.origin}/`);
  return {
    page,
    context,
    origin: server.origin,
    server,
    journal: journalFolder,
    requestsOutside,
    pageErrors,
    async close() {
      await context.close();
      await Promise.all([server.close(), pdf.close()]);
      journal.close();
      rmSync(scratch, { recursive: true, force: true });
    },
  };
}

const launch = () => ({
  executablePath: chromiumHere(),
  headless: true,
  chromiumSandbox: !mustDropSandbox(),
  args: [...quietArguments, '--disable-gpu'],
});

let shared: Promise<Browser> | null = null;

/**
 * One browser for all openings that keep no profile: each has a context of its own, which shares nothing with the
 * others and is gone when it closes, and starting a browser takes longer than most of what is asked of it.
 */
function sharedBrowser(): Promise<Browser> {
  // The process of the tests is ended with it; playwright sees to that.
  return (shared ??= chromium.launch(launch()));
}

/** Ends it; a script ends only then. */
export async function closeSharedBrowser(): Promise<void> {
  await (await shared)?.close();
  shared = null;
}

async function openContext(options: OpenOptions): Promise<BrowserContext> {
  const shown = {
    viewport: options.viewport ?? { width: 1280, height: 800 },
    colorScheme: options.colorScheme ?? ('light' as const),
    reducedMotion: options.reducedMotion ?? ('no-preference' as const),
    acceptDownloads: true,
  };
  if (options.profile !== undefined)
    return chromium.launchPersistentContext(options.profile, { ...launch(), ...shown });
  return (await sharedBrowser()).newContext(shown);
}
