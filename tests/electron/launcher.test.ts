/** `npm start`: which window, on which machine; and acceptance line R29. */
import { spawn } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { createServer, type Server } from 'node:http';
import { createServer as createTcpServer, type AddressInfo, type Server as TcpServer } from 'node:net';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { journalDesk } from '../../electron/journal/desk.ts';
import { holderOf, openAppWindow } from '../../electron/launch/appWindow.ts';
import { runBrowserWindow } from '../../electron/launch/browserWindow.ts';
import { foldersIn, makeFolders, type Folders } from '../../electron/launch/dataFolder.ts';
import { launch, type Launcher } from '../../electron/launch/launch.ts';
import { startServer } from '../../electron/launch/server.ts';
import { isStale } from '../../electron/launch/staleness.ts';
import { helloKey } from '../../electron/launch/token.ts';
import { loadSite, readMap } from '../../electron/site/buildMap.ts';
import { sampleBuild, sampleSite, scratchFolder } from './support/site.ts';

interface Machine extends Partial<Launcher> {
  electron?: string | null;
  fetched?: string | null;
  browser?: string | null;
  tried?: boolean;
  electronEnds?: { code: number; lastedMs: number };
}

/** Runs the launcher on an invented machine and tells what it did. */
async function started(given: string[], machine: Machine = {}) {
  const said: string[] = [];
  const did: string[] = [];
  let electron = machine.electron ?? null;
  const code = await launch(given, {
    say: (words) => void said.push(words),
    platform: 'linux',
    environment: { DISPLAY: ':0' },
    build: () => Promise.resolve(void did.push('build')),
    electronBinary: () => electron,
    fetchElectron: () => {
      did.push('fetch');
      electron = machine.fetched ?? null;
      return Promise.resolve(electron !== null);
    },
    deadlineS: 120,
    wasTried: () => machine.tried ?? false,
    runElectron: (binary) => {
      did.push(`electron ${binary}`);
      return Promise.resolve(machine.electronEnds ?? { code: 0, lastedMs: 60_000 });
    },
    keepSecondFolder: (folder) => {
      did.push(`second ${folder ?? 'none'}`);
      return Promise.resolve(folder === '/full' ? '/full does not take a file: ENOSPC.' : null);
    },
    findBrowser: () => (machine.browser === undefined ? '/usr/bin/chromium' : machine.browser),
    runBrowserWindow: ({ browser }) => {
      did.push(browser === null ? 'serve' : `window ${browser}`);
      return Promise.resolve(0);
    },
    ...machine,
  });
  return { code, did, said: said.join('\n') };
}

describe('the launcher', () => {
  it('notes a second folder for the snapshots before anything starts, or says why it is not taken', async () => {
    const taken = await started(['--serve', '--second-folder=/stick']);
    expect(taken.did).toEqual(['second /stick', 'build', 'serve']);
    expect(taken.said).toContain('Each snapshot is copied to /stick too.');
    expect((await started(['--serve', '--second-folder='])).did).toContain('second none');
    const full = await started(['--second-folder=/full']);
    expect(full).toMatchObject({ code: 1, did: ['second /full'] });
    expect(full.said).toMatch(/ENOSPC/);
  });

  it('takes Electron where it is', async () => {
    expect(await started([], { electron: '/e/electron' })).toMatchObject({
      code: 0,
      did: ['build', 'electron /e/electron'],
    });
  });

  it('fetches Electron where it is not, saying so', async () => {
    const { did, said } = await started([], { fetched: '/e/electron' });
    expect(did).toEqual(['build', 'fetch', 'electron /e/electron']);
    expect(said).toMatch(/fetching it \(at most 120 s\)/);
  });

  it('opens a browser window where Electron cannot be had, saying so', async () => {
    const { did, said } = await started([]);
    expect(did).toEqual(['build', 'fetch', 'window /usr/bin/chromium']);
    expect(said).toMatch(/could not be fetched[^]*window of \/usr\/bin\/chromium/);
  });

  it('does not try to fetch where no time is given for it', async () => {
    expect((await started([], { deadlineS: 0 })).did).toEqual(['build', 'window /usr/bin/chromium']);
  });

  it('does not try to fetch again what this installation could not fetch', async () => {
    const { did, said } = await started([], { tried: true });
    expect(did).toEqual(['build', 'window /usr/bin/chromium']);
    expect(said).toContain('npm ci, and the next start tries again');
    expect(said).not.toContain('fetching');
    expect((await started([], { tried: true, electron: '/e/electron' })).did).toContain('electron /e/electron');
  });

  it('opens a browser window where Electron does not start, and not where it ran or refused', async () => {
    const machine = { electron: '/e/electron' };
    const ends = async (code: number, lastedMs: number) =>
      await started([], { ...machine, electronEnds: { code, lastedMs } });
    expect(await ends(133, 400)).toMatchObject({
      code: 0,
      did: ['build', 'electron /e/electron', 'window /usr/bin/chromium'],
    });
    expect(await ends(3, 400)).toMatchObject({ code: 3, did: ['build', 'electron /e/electron'] });
    expect(await ends(1, 60_000)).toMatchObject({ code: 1, did: ['build', 'electron /e/electron'] });
  });

  it('goes straight to the browser window where asked', async () => {
    expect((await started(['--browser'], { electron: '/e/electron' })).did).toEqual([
      'build',
      'window /usr/bin/chromium',
    ]);
  });

  it('only serves where asked', async () => {
    expect((await started(['--serve'], { electron: '/e/electron' })).did).toEqual(['build', 'serve']);
  });

  it.each([{}, { DISPLAY: '' }])('only serves where there is no display: %j', async (environment) => {
    const { did, said } = await started([], { environment, electron: '/e/electron' });
    expect(did).toEqual(['build', 'serve']);
    expect(said).toMatch(/no display/);
  });

  it.each([
    ['linux', { WAYLAND_DISPLAY: 'wayland-0' }],
    ['win32', {}],
    ['darwin', {}],
  ] as const)('sees the display of %s %j', async (platform, environment) => {
    expect((await started(['--browser'], { platform, environment })).did).toEqual([
      'build',
      'window /usr/bin/chromium',
    ]);
  });

  it('serves where there is no browser, saying so', async () => {
    const { did, said } = await started([], { browser: null });
    expect(did).toEqual(['build', 'fetch', 'serve']);
    expect(said).toMatch(/No Chrome, Edge, Brave or Chromium/);
  });

  it('knows its words, and stops at others', async () => {
    const { code, did, said } = await started(['--port=1']);
    expect([code, did]).toEqual([2, []]);
    expect(said).toMatch(/"--port=1"[^]*--serve/);
  });

  it('says so where the build breaks', async () => {
    const { code, said } = await started([], { build: () => Promise.reject(new Error('no such file')) });
    expect(code).toBe(1);
    expect(said).toBe('Bagwright could not be built: no such file');
  });
});

/** A browser that notes what it was opened with and stays for a while. */
function fakeBrowser(folder: string, lastsS: number): { path: string; opened: () => string[] } {
  const path = join(folder, 'browser');
  const notes = join(folder, 'opened');
  writeFileSync(
    path,
    `#!/bin/sh\nfor word in "$@"; do case "$word" in --app=*) echo "$word" >> '${notes}';; esac; done\nexec sleep ${lastsS}\n`,
  );
  chmodSync(path, 0o755);
  return { path, opened: () => (existsSync(notes) ? readFileSync(notes, 'utf8').trim().split('\n') : []) };
}

function newFolders(): Folders {
  const folders = foldersIn(join(scratchFolder(), 'data'));
  makeFolders(folders);
  return folders;
}

describe('the browser window', () => {
  const holders: (Server | TcpServer)[] = [];
  const closing: (() => Promise<void>)[] = [];
  afterEach(async () => {
    for (const holder of holders.splice(0)) holder.close();
    for (const close of closing.splice(0)) await close();
  });

  async function run(options: { browser: string | null; folders?: Folders; port?: number; stop?: AbortSignal }) {
    const said: string[] = [];
    const built = sampleBuild();
    const code = await runBrowserWindow({
      browser: options.browser,
      folders: options.folders ?? newFolders(),
      port: options.port ?? 0,
      version: '1.2.3',
      site: () => loadSite(join(built, 'renderer'), readMap(join(built, 'files.json'))),
      say: (words) => void said.push(words),
      stop: options.stop ?? new AbortController().signal,
    });
    return { code, said: said.join('\n') };
  }

  async function portHeldBy(holder: Server | TcpServer): Promise<number> {
    holders.push(holder);
    await new Promise<void>((resolve) => holder.listen(0, '127.0.0.1', () => resolve()));
    return (holder.address() as AddressInfo).port;
  }

  async function portHeldByUs(folders: Folders): Promise<number> {
    const ours = await startServer({
      port: 0,
      site: sampleSite(),
      version: '1.2.3',
      dataFolder: folders.data,
      helloKey: helloKey(folders.data),
      journal: journalDesk({ folder: join(scratchFolder(), 'journal') }),
      makePdf: () => Promise.reject(new Error('not asked')),
    });
    closing.push(ours.close);
    return ours.port;
  }

  it('opens on the server’s address, and its closing ends the server', async () => {
    const browser = fakeBrowser(scratchFolder(), 1);
    const { code } = await run({ browser: browser.path });
    expect(code).toBe(0);
    const [first = ''] = browser.opened();
    expect(first).toMatch(/^--app=http:\/\/127\.0\.0\.1:\d+\/$/);
    await expect(fetch(first.replace('--app=', ''))).rejects.toThrow();
  });

  it('ends where the user stops the launcher, and its browser with it', async () => {
    const browser = fakeBrowser(scratchFolder(), 600);
    const stop = new AbortController();
    setTimeout(() => stop.abort(), 1_000);
    expect((await run({ browser: browser.path, stop: stop.signal })).code).toBe(0);
  });

  it('without a browser serves, says where, and how to stop', async () => {
    const stop = new AbortController();
    setTimeout(() => stop.abort(), 300);
    const { code, said } = await run({ browser: null, stop: stop.signal });
    expect(code).toBe(0);
    expect(said).toMatch(/at http:\/\/127\.0\.0\.1:\d+\/ .*Ctrl\+C/);
  });

  it('joins another copy that holds the port', async () => {
    const folders = newFolders();
    const port = await portHeldByUs(folders);
    const browser = fakeBrowser(scratchFolder(), 0);
    const { code, said } = await run({ browser: browser.path, folders, port });
    expect([code, browser.opened()]).toEqual([0, [`--app=http://127.0.0.1:${port}/`]]);
    expect(said).toMatch(/running already/);
    const served = await run({ browser: null, folders, port });
    expect([served.code, served.said]).toEqual([0, `Bagwright is running already, at http://127.0.0.1:${port}/`]);
  });

  it.each<[string, () => Server | TcpServer]>([
    ['another program', () => createServer((_request, response) => response.end('{"proof":"00"}'))],
    [
      'a program that repeats the question',
      () =>
        createServer((request, response) =>
          response.end(JSON.stringify({ proof: request.headers['x-bagwright-nonce'] })),
        ),
    ],
    ['a program that never answers', () => createTcpServer()],
    [
      'a program that never stops answering',
      () => createServer((_request, response) => void setInterval(() => response.write('x'.repeat(1_000)), 1).unref()),
    ],
    ['a program that is not a web server', () => createTcpServer((socket) => socket.end('SSH-2.0\r\n'))],
  ])('opens nothing where %s holds the port, and says so', async (_who, holder) => {
    const port = await portHeldBy(holder());
    const browser = fakeBrowser(scratchFolder(), 0);
    const { code, said } = await run({ browser: browser.path, port });
    expect(code).not.toBe(0);
    expect(said).toMatch(new RegExp(`Port ${port} .*taken by another program`));
    expect(browser.opened()).toEqual([]);
  });

  it('opens nothing where another user’s copy holds the port', async () => {
    const port = await portHeldByUs(newFolders());
    const browser = fakeBrowser(scratchFolder(), 0);
    expect((await run({ browser: browser.path, port })).code).toBe(1);
    expect(browser.opened()).toEqual([]);
  });

  it('waits for the browser that took its window over', async () => {
    const profile = scratchFolder();
    const other = spawn('sleep', ['600']);
    symlinkSync(`machine-${other.pid}`, join(profile, 'SingletonLock'));
    expect(holderOf(profile)).toBe(other.pid);
    const browser = fakeBrowser(scratchFolder(), 0);
    let closed = false;
    const waiting = openAppWindow(browser.path, 'http://127.0.0.1/', profile)
      .untilClosed()
      .then(() => (closed = true));
    await new Promise((resolve) => setTimeout(resolve, 1_500));
    expect(closed).toBe(false);
    other.kill('SIGKILL');
    await waiting;
    expect(holderOf(scratchFolder())).toBeNull();
  });

  it('says so where the browser cannot be started', async () => {
    await expect(run({ browser: '/nowhere/browser' })).rejects.toThrow(/could not be started/);
  });
});

describe('a build', () => {
  it('is stale where it is missing or older than a source, or where a source was deleted', () => {
    const root = scratchFolder();
    for (const folder of ['renderer', 'electron', 'dist']) mkdirSync(join(root, folder));
    writeFileSync(join(root, 'renderer', 'a.ts'), '');
    expect(isStale(root, ['dist/out.js'], 'dist/files.json')).toBe(true);
    for (const file of ['out.js', 'files.json']) writeFileSync(join(root, 'dist', file), '');
    const setTime = (path: string, seconds: number): void => utimesSync(join(root, path), seconds, seconds);
    const settle = (): void => ['renderer/a.ts', 'renderer', 'electron'].forEach((path) => setTime(path, 1_000));
    settle();
    setTime('dist/files.json', 2_000);
    expect(isStale(root, ['dist/out.js'], 'dist/files.json')).toBe(false);
    setTime('renderer/a.ts', 3_000);
    expect(isStale(root, ['dist/out.js'], 'dist/files.json')).toBe(true);
    settle();
    setTime('renderer', 3_000);
    expect(isStale(root, ['dist/out.js'], 'dist/files.json')).toBe(true);
    expect(statSync(join(root, 'dist', 'out.js')).isFile()).toBe(true);
  });
});
