/** Ways out of the program, in what it is made of and in what it is built into: acceptance line U23. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { buildIfNeeded, root, siteFolder } from '../../electron/launch/build.ts';
import { trackedFiles } from '../support/tracked.ts';

beforeAll(() => buildIfNeeded(), 180_000);

describe('the sources', () => {
  const sources = trackedFiles().filter((path) => /^(?:electron|renderer|shared-types)\/.*\.(?:tsx?|mjs)$/.test(path));
  const holding = (pattern: RegExp): string[] =>
    sources.filter((path) => pattern.test(readFileSync(join(root, path), 'utf8')));

  it('ask for an address in four files: the call of the loopback server, and three that load the program’s own files', () => {
    expect(sources.length).toBeGreaterThan(400);
    expect(holding(/(?<![\w'"`.])(?:page\.|globalThis\.|window\.|self\.)?fetch\(/)).toEqual([
      'renderer/components/plot/exportPlot.ts',
      'renderer/features/manifest/loadPrintFonts.ts',
      'renderer/host/browserHost.ts',
      'renderer/host/pageMeans.ts',
    ]);
  });

  it('open a connection of their own in two: the question to another copy, and the answers of the server', () => {
    const asks = /from 'node:(?:http|https|http2|net|tls|dgram|dns)(?:\/promises)?'/;
    const beyondTypes = holding(asks).filter((path) =>
      readFileSync(join(root, path), 'utf8')
        .split('\n')
        .some((line) => asks.test(line) && !line.startsWith('import type ')),
    );
    expect(beyondTypes).toEqual(['electron/launch/hello.ts', 'electron/launch/server.ts']);
  });
});

describe('the build', () => {
  const built = (): { name: string; text: string }[] => [
    ...readdirSync(join(siteFolder, 'assets'))
      .filter((name) => /\.m?js$/.test(name))
      .map((name) => ({ name, text: readFileSync(join(siteFolder, 'assets', name), 'utf8') })),
    ...['main/main.js', 'preload/preload.cjs'].map((name) => ({
      name,
      text: readFileSync(join(root, 'dist', name), 'utf8'),
    })),
  ];

  it.each([
    ...['WebSocket', 'EventSource', 'WebTransport', 'RTCPeerConnection', 'sendBeacon'],
    ...['crashReporter', 'autoUpdater', 'checkForUpdates', 'app-update.yml', 'openExternal'],
  ])('has no %s in it, of any library', (word) => {
    expect(built().length).toBeGreaterThan(20);
    expect(built().flatMap(({ name, text }) => (text.includes(word) ? [name] : []))).toEqual([]);
  });

  it('has XMLHttpRequest only where a library’s own loader does, which the page’s policy keeps at home', () => {
    // Papa Parse's reading of an address, which is never asked; the solver's and the PDF reader's loading of their own parts.
    const loaders = /_chunkLoaded|Lazy loading should have been|fetchSync/;
    const found = built().filter(({ text }) => text.includes('XMLHttpRequest'));
    expect(found.filter(({ text }) => !loaders.test(text)).map(({ name }) => name)).toEqual([]);
    expect(found.length).toBeGreaterThan(0);
  });
});
