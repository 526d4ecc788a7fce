/** The browser-window host from start to end: server, window, and the other copies it may meet. */
import { journalDesk } from '../journal/desk.ts';
import type { Site } from '../site/buildMap.ts';
import { openAppWindow, type AppWindow } from './appWindow.ts';
import type { Folders } from './dataFolder.ts';
import { findBrowser } from './findBrowser.ts';
import { isOurs } from './hello.ts';
import { pdfMaker } from './pdf.ts';
import { loopback, startServer, type RunningServer } from './server.ts';
import { helloKey } from './token.ts';

export interface BrowserWindowOptions {
  /** The browser to show a window of; null to serve only. */
  browser: string | null;
  folders: Folders;
  port: number;
  version: string;
  site: () => Site;
  say: (words: string) => void;
  stop: AbortSignal;
  /** Called once it is certain that no other copy with these folders runs. */
  onAlone?: () => void;
}

export async function runBrowserWindow(options: BrowserWindowOptions): Promise<number> {
  const { browser, folders, port, say, stop, version } = options;
  const key = helloKey(folders.data);
  // PDFs need a browser even where no window is shown.
  const pdf = pdfMaker({ browser: browser ?? findBrowser() });
  const journal = journalDesk({ folder: folders.journal });
  let server: RunningServer;
  try {
    server = await startServer({
      port,
      site: options.site(),
      version,
      dataFolder: folders.data,
      helloKey: key,
      journal,
      makePdf: pdf.make,
    });
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code !== 'EADDRINUSE') throw cause;
    return await meetHolder(options, key);
  }
  options.onAlone?.();
  // Only the holder of the port may touch the journal; what keeps it from opening is told to the page.
  journal.begin(version);
  try {
    if (browser === null) {
      say(`Bagwright is at ${server.origin}/ for browsers on this machine. Stop it with Ctrl+C.`);
      await stopped(stop);
    } else {
      server.openWith((address) => opens(openAppWindow(browser, address, folders.browserProfile)));
      const window = openAppWindow(browser, `${server.origin}/`, folders.browserProfile);
      await Promise.race([window.untilClosed(), stopped(stop)]);
      window.close();
    }
    return 0;
  } finally {
    await Promise.all([server.close(), pdf.close()]);
    await journal.leave();
  }
}

/** The data belong to the address, port included, so another port would show an empty program. It is never taken. */
async function meetHolder({ browser, folders, port, say, stop }: BrowserWindowOptions, key: Buffer): Promise<number> {
  const address = `http://${loopback}:${port}/`;
  if (!(await isOurs(port, key))) {
    say(
      `Port ${port} of this machine is taken by another program (or another user's Bagwright). ` +
        'Bagwright keeps to this port, because its data belong to it. Close the other program and start again.',
    );
    return 1;
  }
  if (browser === null) {
    say(`Bagwright is running already, at ${address}`);
    return 0;
  }
  say('Bagwright is running already; opening another window of it.');
  const window = openAppWindow(browser, address, folders.browserProfile);
  await Promise.race([window.handed, stopped(stop)]);
  if (stop.aborted) window.close();
  return 0;
}

/** Whether the browser took the address. A window of a running browser is handed over and its messenger ends. */
function opens(window: AppWindow): Promise<boolean> {
  const given = new Promise<boolean>((resolve) => setTimeout(() => resolve(true), 300));
  return Promise.race([given, window.handed.then(() => true)]).catch(() => false);
}

function stopped(stop: AbortSignal): Promise<void> {
  return new Promise((resolve) => {
    if (stop.aborted) resolve();
    else stop.addEventListener('abort', () => resolve(), { once: true });
  });
}
