/** The loopback server with a page of its own: the page's part is played without a document. */
import { startServer, type RunningServer, type ServerOptions } from '../../electron/launch/server.ts';
import { journalDesk } from '../../electron/journal/desk.ts';
import type { PageMeans } from '../../renderer/host/browserHost.ts';
import { sampleSite, scratchFolder } from '../electron/support/site.ts';

export async function serve(options: Partial<ServerOptions> = {}): Promise<RunningServer> {
  return await startServer({
    port: 0,
    site: sampleSite(),
    version: '1.2.3',
    dataFolder: scratchFolder(),
    helloKey: Buffer.alloc(32, 7),
    journal: options.journal ?? journalDesk({ folder: `${scratchFolder()}/journal` }),
    makePdf: () => Promise.reject(new Error('not asked')),
    ...options,
  });
}

/** What a page loaded from the server has: its token is read from the page, as the page does. */
export async function loadPage(server: RunningServer): Promise<PageMeans> {
  const page = await (await fetch(server.origin)).text();
  return {
    token: /name="bagwright-token" content="([^"]+)"/.exec(page)?.[1] ?? '',
    // A browser names the origin by itself.
    fetch: (address, init) =>
      fetch(new URL(String(address), server.origin), {
        ...init,
        headers: { ...(init?.headers as Record<string, string>), origin: server.origin },
      }),
    chooseFile: () => Promise.resolve(null),
    download: () => undefined,
  };
}
