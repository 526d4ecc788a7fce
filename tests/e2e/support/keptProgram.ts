/** One copy of the program over several lives: its data folder, its profile and its address stay, its processes come and go. */
import { cpSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { foldersIn, type Folders } from '../../../electron/launch/dataFolder.ts';
import { openKillableBrowser, type BrowserOptions, type KillableBrowser } from './killableBrowser.ts';
import { freePort, serveProgram, type ServedProgram } from './servedProgram.ts';

export interface Life {
  server: ServedProgram;
  browser: KillableBrowser;
  page: Page;
}

export class KeptProgram {
  readonly folders: Folders;
  readonly port: number;
  private server: ServedProgram | null = null;
  private browser: KillableBrowser | null = null;

  private readonly options: BrowserOptions;

  private constructor(data: string, port: number, options: BrowserOptions) {
    this.folders = foldersIn(data);
    this.port = port;
    this.options = options;
  }

  static inNewFolder(options: BrowserOptions = {}): Promise<KeptProgram> {
    return KeptProgram.inFolder(mkdtempSync(join(tmpdir(), 'bagwright-kept-')), options);
  }

  static async inFolder(data: string, options: BrowserOptions = {}): Promise<KeptProgram> {
    mkdirSync(data, { recursive: true });
    return new KeptProgram(data, await freePort(), options);
  }

  /** The same folders at another address. */
  movedTo(port: number): KeptProgram {
    return new KeptProgram(this.folders.data, port, this.options);
  }

  get address(): string {
    return `http://127.0.0.1:${this.port}/`;
  }

  /** Starts what does not run, both at once. The page is blank or, after its server alone went, as it was left. */
  async start(site: string): Promise<Life> {
    const { folders, port } = this;
    const [server, browser] = await Promise.all([
      this.server ?? serveProgram({ data: folders.data, port, site }),
      this.browser ?? openKillableBrowser(folders.browserProfile, this.options),
    ]);
    this.server = server;
    this.browser = browser;
    return { server, browser, page: browser.page };
  }

  async killServer(): Promise<void> {
    const { server } = this;
    this.server = null;
    await server?.kill();
  }

  async killBrowser(): Promise<void> {
    const { browser } = this;
    this.browser = null;
    await browser?.kill();
  }

  async killBoth(): Promise<void> {
    await Promise.all([this.killServer(), this.killBrowser()]);
  }

  /** As a person would end it: the window first, then the program. */
  async stop(): Promise<void> {
    const { server, browser } = this;
    this.server = null;
    this.browser = null;
    await browser?.close();
    await server?.stop();
  }

  /** Sets a copy of everything kept aside; nothing may run meanwhile. */
  copyTo(folder: string): void {
    cpSync(this.folders.data, folder, { recursive: true, verbatimSymlinks: true });
  }

  /** Puts such a copy in the place of what is kept now. */
  goBackTo(folder: string): void {
    rmSync(this.folders.data, { recursive: true, force: true, maxRetries: 5 });
    cpSync(folder, this.folders.data, { recursive: true, verbatimSymlinks: true });
  }

  async end(): Promise<void> {
    await this.killBoth();
    rmSync(this.folders.data, { recursive: true, force: true, maxRetries: 5 });
  }
}
