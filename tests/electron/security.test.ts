/** The desktop shell's locks: acceptance lines S2 to S4, S6 to S8 and R29 for what can be seen without the binary. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { forbiddenSwitch } from '../../electron/forbiddenSwitches.ts';
import { printPartition } from '../../electron/handlers/makePdf.ts';
import { refusedRequestCount } from '../../electron/lockdown.ts';
import { startShell } from '../../electron/shell.ts';
import { lockedPreferences } from '../../electron/window.ts';
import { identity } from '../../shared-types/ipc.ts';
import { app, BrowserWindow, exposed, protocol, session, shell, type FakeSession } from './support/electronStandIn.ts';
import { shellUnderTest } from './support/shellUnderTest.ts';
import { traversals } from './support/traversals.ts';

vi.mock('electron', () => import('./support/electronStandIn.ts'));

let window: BrowserWindow;
let data: string;
afterAll(() => void app.emit('will-quit', { preventDefault: () => undefined }));
beforeAll(async () => {
  ({ window, data } = await shellUnderTest());
  await import('../../electron/preload.ts');
});

const foreign = [
  'https://example.org/',
  'http://127.0.0.1:47811/',
  'file:///etc/passwd',
  'javascript:alert(1)',
  'data:text/html,<p>x',
  'app://bagwright.example/',
  'app://print/',
  'app://bagwright@evil/',
  'blob:https://example.org/1',
  'ms-msdt:/id',
  'smb://host/share',
  'file://host/share/a.hta',
  'vbscript:x',
  'chrome://settings/',
  'devtools://devtools/bundled/inspector.html',
  'about:blank',
];

describe('the window', () => {
  it('has every preference locked, and no other', () => {
    expect(lockedPreferences()).toMatchInlineSnapshot(`
      {
        "allowRunningInsecureContent": false,
        "contextIsolation": true,
        "devTools": false,
        "enableBlinkFeatures": "",
        "experimentalFeatures": false,
        "navigateOnDragDrop": false,
        "nodeIntegration": false,
        "nodeIntegrationInSubFrames": false,
        "nodeIntegrationInWorker": false,
        "plugins": false,
        "safeDialogs": true,
        "sandbox": true,
        "spellcheck": false,
        "webSecurity": true,
        "webviewTag": false,
      }
    `);
    const { preload, ...given } = window.options.webPreferences;
    expect(given).toEqual(lockedPreferences());
    expect(String(preload)).toMatch(/preload\.cjs$/);
    expect(app.enableSandbox).toHaveBeenCalled();
  });

  it('shows the program’s own address', () => {
    expect(window.loaded).toEqual(['app://bagwright/']);
  });

  it('gives the page its short list of promises and nothing of Electron', () => {
    expect([...exposed.keys()]).toEqual(['bagwright']);
    expect(Object.keys(exposed.get('bagwright') as object)).toEqual([
      'info',
      'openText',
      'saveFile',
      'makePdf',
      'printPdf',
      'journalOpen',
      'journalAppend',
      'journalRead',
      'journalSetDatabase',
      'journalBeginAgain',
      'journalLease',
      'journalEndLease',
      'snapshotsList',
      'snapshotsMake',
      'snapshotsRead',
      'snapshotsMeant',
      'snapshotsChooseSecond',
      'snapshotsNoSecond',
      'onLeaseLost',
    ]);
  });

  it.each(foreign)('neither goes to nor opens %s', (url) => {
    for (const kind of ['will-navigate', 'will-redirect', 'will-frame-navigate']) {
      const event = { preventDefault: vi.fn(), url };
      window.webContents.emit(kind, event);
      expect(event.preventDefault, kind).toHaveBeenCalledOnce();
    }
    expect(window.webContents.openHandler?.({ url })).toEqual({ action: 'deny' });
    expect(shell.openExternal).not.toHaveBeenCalled();
  });

  it('may go to its own page, and still opens no second window on it', () => {
    const event = { preventDefault: vi.fn(), url: 'app://bagwright/#bag' };
    window.webContents.emit('will-navigate', event);
    expect(event.preventDefault).not.toHaveBeenCalled();
    expect(window.webContents.openHandler?.({ url: 'app://bagwright/' })).toEqual({ action: 'deny' });
  });

  it('attaches no webview', () => {
    const event = { preventDefault: vi.fn() };
    window.webContents.emit('will-attach-webview', event);
    expect(event.preventDefault).toHaveBeenCalledOnce();
  });
});

const permissions = [
  'clipboard-read',
  'clipboard-sanitized-write',
  'display-capture',
  'fileSystem',
  'fullscreen',
  'geolocation',
  'hid',
  'idle-detection',
  'media',
  'midi',
  'midiSysex',
  'notifications',
  'openExternal',
  'pointerLock',
  'serial',
  'usb',
];

describe.each([
  ['the program', (): FakeSession => session.defaultSession],
  ['a document being printed', (): FakeSession => session.fromPartition(printPartition)],
])('the session of %s', (_name, of) => {
  beforeAll(async () => {
    const { makePdf } = exposed.get('bagwright') as { makePdf: (document: unknown) => Promise<{ ok: boolean }> };
    expect(await makePdf({ title: 'a', html: '<p>a', paper: 'A4' })).toMatchObject({ ok: true });
  });

  it('grants none of the permissions', () => {
    let granted = 0;
    for (const permission of permissions) {
      of().permissionRequest?.(null, permission, (yes) => (granted += yes ? 1 : 0));
      granted += of().permissionCheck?.(null, permission) === false ? 0 : 1;
    }
    expect(granted).toBe(0);
    expect(of().devicePermission?.({ deviceType: 'usb' })).toBe(false);
    expect(permissions.length).toBeGreaterThanOrEqual(15);
  });

  it.each(foreign.filter((url) => !url.startsWith('data:')))('stops a request for %s and counts it', async (url) => {
    const before = refusedRequestCount();
    expect(await of().load(url)).toBeNull();
    expect(refusedRequestCount()).toBe(before + 1);
  });

  it('lets nothing be downloaded', () => {
    const event = { preventDefault: vi.fn() };
    of().emit('will-download', event);
    expect(event.preventDefault).toHaveBeenCalledOnce();
  });
});

describe('a document being printed', () => {
  it('is laid out locked, without script, apart from the program, and then gone', async () => {
    const { makePdf } = exposed.get('bagwright') as { makePdf: (document: unknown) => Promise<unknown> };
    await makePdf({ title: 'a', html: '<p>a', paper: 'Letter' });
    const hidden = BrowserWindow.made.at(-1);
    expect(hidden?.options).toMatchObject({
      show: false,
      webPreferences: { ...lockedPreferences(), javascript: false, partition: printPartition },
    });
    expect(hidden?.options.webPreferences).not.toHaveProperty('preload');
    expect(printPartition).not.toMatch(/^persist:/);
    expect(hidden?.webContents.printed).toEqual([
      { pageSize: 'Letter', preferCSSPageSize: true, printBackground: true, generateTaggedPDF: true },
    ]);
    expect(hidden?.destroyed).toBe(true);
    // Its address answered once, and never again.
    expect(await session.fromPartition(printPartition).load(hidden?.loaded[0] ?? '')).toBeNull();
  });
});

describe('the scheme', () => {
  it('is claimed as a standard, secure one that bypasses no policy', () => {
    expect(protocol.registerSchemesAsPrivileged).toHaveBeenCalledWith([
      { scheme: 'app', privileges: { standard: true, secure: true, supportFetchAPI: true, codeCache: true } },
    ]);
  });

  it('serves the page with its policy, a fresh nonce each time, and no token', async () => {
    const nonces = new Set<string>();
    for (let turn = 0; turn < 3; turn += 1) {
      const page = await session.defaultSession.load('app://bagwright/');
      const policy = page?.headers.get('content-security-policy') ?? '';
      const nonce = /'nonce-([^']+)'/.exec(policy)?.[1] ?? '';
      expect(await page?.text()).toContain(`nonce="${nonce}"><meta name="bagwright-token" content="">`);
      expect(policy).not.toMatch(/unsafe-inline|'unsafe-eval'/);
      nonces.add(nonce);
    }
    expect(nonces.size).toBe(3);
  });

  it('serves the built files with their kind', async () => {
    const script = await session.defaultSession.load('app://bagwright/assets/index-1a2b.js');
    expect(script?.status).toBe(200);
    expect(script?.headers.get('content-type')).toBe('text/javascript; charset=utf-8');
    expect(script?.headers.get('x-content-type-options')).toBe('nosniff');
  });

  // A URL loses its `/./` before the shell sees it; the server's test sends that one as it stands.
  const sent = traversals.filter((path) => !path.includes('/./')).map((path) => [path.slice(0, 40), path] as const);
  it.each(sent)('has nothing at %s', async (_shown, path) => {
    const found = await session.defaultSession.load(`app://bagwright${path.startsWith('/') ? '' : '/'}${path}`);
    expect(found?.status ?? 404).toBe(404);
  });
});

describe('the start', () => {
  beforeEach(() => {
    app.exit.mockClear();
    app.given.clear();
  });

  it('keeps the origin and the place of the profile for ever', () => {
    expect(identity).toEqual({
      scheme: 'app',
      host: 'bagwright',
      electronOrigin: 'app://bagwright',
      browserPort: 47811,
      browserOrigin: 'http://127.0.0.1:47811',
    });
    expect(app.paths.get('userData')).toBe(join(data, 'electron'));
  });

  it.each(['remote-debugging-port', 'remote-debugging-pipe', 'inspect', 'inspect-brk'])(
    'is refused with --%s',
    (name) => {
      app.given.add(name);
      startShell('/nowhere');
      expect(app.exit).toHaveBeenCalledWith(3);
    },
  );

  it.each([
    [['app', '--inspect=9229'], [], {}],
    [['app', '--remote-debugging-port=0'], [], {}],
    [['app'], ['--inspect-brk'], {}],
    [['app'], [], { NODE_OPTIONS: '--max-old-space-size=100 --inspect' }],
  ])('sees a debugger in %j %j %j', (given, toNode, environment) => {
    expect(forbiddenSwitch(given, toNode, environment, () => false)).toMatch(/^--(?:inspect|remote)/);
  });

  it('is not refused for an ordinary start', () => {
    expect(forbiddenSwitch(['electron', '/home/inspect', '--no-sandbox'], [], {}, () => false)).toBeNull();
  });

  it('of a second copy ends it, and the first comes forward', () => {
    app.firstInstance = false;
    startShell('/nowhere');
    expect(app.quit).toHaveBeenCalled();
    window.minimized = true;
    app.emit('second-instance');
    expect(window.restore).toHaveBeenCalledOnce();
    expect(window.focus).toHaveBeenCalledOnce();
    app.firstInstance = true;
  });
});

describe('the sources of the program', () => {
  const root = fileURLToPath(new URL('../..', import.meta.url));
  const sources = ['electron', 'renderer', 'shared-types'].flatMap((room) =>
    readdirSync(join(root, room), { recursive: true, encoding: 'utf8' })
      .filter((name) => /\.tsx?$/.test(name))
      .map((name) => ({ name: join(room, name), text: readFileSync(join(root, room, name), 'utf8') })),
  );

  it.each([
    ['opens an outside address', /openExternal/],
    ['updates itself', /autoUpdater|electron-updater|checkForUpdates/],
    ['reports crashes or use', /crashReporter|sendBeacon|analytics|telemetry|sentry/i],
    [
      'sends to a stored address',
      /https?:\/\/(?!127\.0\.0\.1|print\.invalid|www\.w3\.org\/|schemas\.openxmlformats\.org\/)[a-z0-9-]+\.[a-z]/i,
    ],
    ['talks by another way than the two gates', /WebSocket|EventSource|RTCPeerConnection|XMLHttpRequest/],
  ])('hold nothing that %s', (_what, pattern) => {
    expect(sources.length).toBeGreaterThan(40);
    expect(sources.filter(({ text }) => pattern.test(text)).map(({ name }) => name)).toEqual([]);
  });
});
