/** The installed Chromium with a profile on the disk, all of whose processes can be killed at once. */
import { mkdirSync } from 'node:fs';
import { chromium, type BrowserContext, type Page } from 'playwright-core';
import { holderOf } from '../../../electron/launch/appWindow.ts';
import { mustDropSandbox, quietArguments } from '../../../electron/launch/browserArguments.ts';
import { chromiumHere } from './openBuilt.ts';

export interface KillableBrowser {
  context: BrowserContext;
  page: Page;
  /** Every process of it, at once; resolves when the first one is gone. */
  kill(): Promise<void>;
  /** As closing its last window would. */
  close(): Promise<void>;
}

export interface BrowserOptions {
  /** What the script of one page may hold, so that a test reaches the end of it before the machine's. */
  heapMb?: number;
}

export async function openKillableBrowser(profile: string, { heapMb }: BrowserOptions = {}): Promise<KillableBrowser> {
  mkdirSync(profile, { recursive: true, mode: 0o700 });
  const heap = heapMb === undefined ? [] : [`--js-flags=--max-old-space-size=${heapMb}`];
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: chromiumHere(),
    headless: true,
    chromiumSandbox: !mustDropSandbox(),
    args: [...quietArguments, '--disable-gpu', ...heap],
    viewport: { width: 1280, height: 800 },
    acceptDownloads: true,
  });
  const first = holderOf(profile);
  if (first === null) throw new Error(`nobody holds ${profile}, though a browser has it open`);
  const ended = new Promise<void>((resolve) => context.on('close', () => resolve()));
  return {
    context,
    page: context.pages()[0] ?? (await context.newPage()),
    async kill() {
      // Started by playwright as the head of a group of its own.
      process.kill(-first, 'SIGKILL');
      await ended;
    },
    close: () => context.close(),
  };
}
