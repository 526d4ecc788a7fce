/** What the launcher looks for: Electron's program file, an installed browser. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { mustDropSandbox, windowArguments } from '../../electron/launch/browserArguments.ts';
import { deadlineS, electronBinary, fetchElectron, wasTried } from '../../electron/launch/electronBinary.ts';
import { findBrowser } from '../../electron/launch/findBrowser.ts';
import { scratchFolder } from './support/site.ts';

describe('Electron’s program file', () => {
  const on = (platform: NodeJS.Platform, present: string[], environment: Record<string, string> = {}) => ({
    platform,
    environment,
    exists: (path: string) => present.includes(path),
  });

  it.each([
    ['linux', 'electron'],
    ['darwin', 'Electron.app/Contents/MacOS/Electron'],
    ['win32', 'electron.exe'],
  ] as const)('is found on %s when the package names it and it is there', (platform, name) => {
    const file = join('/p', 'dist', name);
    expect(electronBinary('/p', on(platform, [file]), () => `${name}\n`)).toBe(file);
    expect(electronBinary('/p', on(platform, []), () => name)).toBeNull();
    expect(electronBinary('/p', on(platform, [file]), () => 'other')).toBeNull();
  });

  it('is absent where the package, or its note, is', () => {
    expect(electronBinary(null, on('linux', []))).toBeNull();
    const noNote = (): string => {
      throw new Error('ENOENT');
    };
    expect(electronBinary('/p', on('linux', ['/p/dist/electron']), noNote)).toBeNull();
  });

  it('may lie elsewhere by its own variable', () => {
    const environment = { ELECTRON_OVERRIDE_DIST_PATH: '/o' };
    expect(electronBinary(null, on('linux', ['/o/electron'], environment))).toBe('/o/electron');
    expect(electronBinary(null, on('linux', [], environment))).toBeNull();
  });

  it('has a deadline, settable in seconds', () => {
    expect(deadlineS({})).toBe(120);
    expect(deadlineS({ BAGWRIGHT_ELECTRON_DEADLINE_S: '5' })).toBe(5);
    expect(deadlineS({ BAGWRIGHT_ELECTRON_DEADLINE_S: '0' })).toBe(0);
    for (const wrong of ['', 'soon', '-1', 'Infinity'])
      expect(deadlineS({ BAGWRIGHT_ELECTRON_DEADLINE_S: wrong })).toBe(120);
  });

  it('is given up at the deadline, and where the fetcher fails', async () => {
    const folder = scratchFolder();
    writeFileSync(join(folder, 'install.js'), 'setInterval(() => {}, 1000);');
    const begun = Date.now();
    expect(await fetchElectron(0.5, folder)).toBe(false);
    expect(Date.now() - begun).toBeLessThan(10_000);
    writeFileSync(join(folder, 'install.js'), 'process.exit(1);');
    expect(await fetchElectron(30, folder)).toBe(false);
    expect(await fetchElectron(30, null)).toBe(false);
  });

  it('is fetched once for an installation where that fails, and again where a time is given for it', async () => {
    const folder = scratchFolder();
    writeFileSync(join(folder, 'install.js'), 'process.exit(1);');
    expect(wasTried(folder, {})).toBe(false);
    await fetchElectron(0, folder);
    expect(wasTried(folder, {})).toBe(false);
    await fetchElectron(30, folder);
    expect(wasTried(folder, {})).toBe(true);
    expect(wasTried(folder, { BAGWRIGHT_ELECTRON_DEADLINE_S: '60' })).toBe(false);
    expect(wasTried(null, {})).toBe(false);
    // Fetched after all, nothing is left of that.
    writeFileSync(
      join(folder, 'install.js'),
      `const { mkdirSync, writeFileSync } = require('node:fs');
       mkdirSync(__dirname + '/dist'); writeFileSync(__dirname + '/dist/electron', '', { mode: 0o755 }); writeFileSync(__dirname + '/path.txt', 'electron');`,
    );
    expect(await fetchElectron(30, folder)).toBe(process.platform === 'linux');
    expect(wasTried(folder, {})).toBe(process.platform !== 'linux');
  });

  it('is never asked for by importing the package, which would fetch it unasked', () => {
    for (const name of ['start', 'launch', 'electronBinary', 'browserWindow', 'build']) {
      const source = readFileSync(new URL(`../../electron/launch/${name}.ts`, import.meta.url), 'utf8');
      expect(source).not.toMatch(/(?:from|require\(|import\()\s*'electron'/);
    }
  });
});

describe('the browser', () => {
  const find = (platform: NodeJS.Platform, environment: Record<string, string>, present: string[]) =>
    findBrowser({ platform, environment, exists: (path) => present.includes(path) });

  it.each([
    ['linux', { PATH: '/usr/local/bin:/usr/bin' }, '/usr/bin/chromium'],
    ['linux', { PATH: '/opt/bin' }, '/opt/bin/google-chrome-stable'],
    ['linux', { PATH: '/usr/bin' }, '/usr/bin/microsoft-edge'],
    ['darwin', { HOME: '/Users/a' }, '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome'],
    ['darwin', { HOME: '/Users/a' }, '/Users/a/Applications/Chromium.app/Contents/MacOS/Chromium'],
    ['win32', { PROGRAMFILES: 'C:\\Program Files' }, 'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe'],
    ['win32', { 'PROGRAMFILES(X86)': 'C:\\P' }, 'C:\\P\\Microsoft\\Edge\\Application\\msedge.exe'],
    ['win32', { LOCALAPPDATA: 'C:\\L' }, 'C:\\L\\BraveSoftware\\Brave-Browser\\Application\\brave.exe'],
  ] as const)('of %s with %j is %s', (platform, environment, path) => {
    expect(find(platform, environment, [path])).toBe(path);
    expect(find(platform, environment, [])).toBeNull();
  });

  it('may be named by the user, and is then that one or none', () => {
    const environment = { BAGWRIGHT_BROWSER: '/b/mine', PATH: '/usr/bin' };
    expect(find('linux', environment, ['/b/mine', '/usr/bin/chromium'])).toBe('/b/mine');
    expect(find('linux', environment, ['/usr/bin/chromium'])).toBeNull();
  });

  it('is never taken from a folder that is not an absolute one', () => {
    expect(find('linux', { PATH: ':.:bin' }, ['chromium', './chromium', 'bin/chromium'])).toBeNull();
  });

  it('keeps its sandbox for everyone but root on Linux', () => {
    expect([mustDropSandbox('linux', 0), mustDropSandbox('linux', 1000), mustDropSandbox('darwin', 0)]).toEqual([
      true,
      false,
      false,
    ]);
    expect(windowArguments('http://127.0.0.1:47811/', '/p', false)).not.toContain('--no-sandbox');
    expect(windowArguments('http://127.0.0.1:47811/', '/p', true)).toContain('--no-sandbox');
  });

  it('opens with a profile of its own and a way out to nowhere', () => {
    expect(windowArguments('http://127.0.0.1:47811/', '/p', false)).toEqual(
      expect.arrayContaining([
        '--app=http://127.0.0.1:47811/',
        '--user-data-dir=/p',
        '--proxy-server=http://127.0.0.1:9',
        '--disable-background-networking',
      ]),
    );
  });
});
