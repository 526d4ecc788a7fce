/** The portable program: acceptance line U22, for what is decided before anything is written. */
import { existsSync, mkdirSync, readdirSync, realpathSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { dataFolder } from '../../electron/launch/dataFolder.ts';
import { goPortable, markerName, packedIn } from '../../electron/portable.ts';
import { startShell } from '../../electron/shell.ts';
import { app } from './support/electronStandIn.ts';
import { scratchFolder } from './support/site.ts';

vi.mock('electron', () => import('./support/electronStandIn.ts'));

function marked(): string {
  const folder = scratchFolder();
  writeFileSync(join(folder, markerName), '');
  return folder;
}

describe('the folder of a packed program', () => {
  it.each([
    ['/opt/bag/bagwright', 'linux', {}, '/opt/bag'],
    ['/tmp/.mount_bag/bagwright', 'linux', { APPIMAGE: '/stick/Bagwright.AppImage' }, '/stick'],
    ['/tmp/.mount_bag/bagwright', 'linux', { APPIMAGE: '' }, '/tmp/.mount_bag'],
    ['/Volumes/stick/Bagwright.app/Contents/MacOS/Bagwright', 'darwin', {}, '/Volumes/stick'],
  ] as const)('of %s on %s with %j is %s', (program, platform, environment, folder) => {
    expect(packedIn(program, platform, environment)).toBe(folder);
  });
});

describe('the marker', () => {
  it('moves data and temporary files beside the program, and on Linux all that other programs keep', () => {
    const program = marked();
    const data = join(program, 'bagwright-data');
    const environment: Record<string, string | undefined> = { HOME: '/home/a', PATH: '/usr/bin' };
    expect(goPortable(program, environment, 'linux')?.data).toBe(data);
    expect(dataFolder(environment, 'linux', '/home/a')).toBe(data);
    const { PATH, TMPDIR, TEMP, TMP, GSETTINGS_BACKEND, ...places } = environment;
    expect([PATH, GSETTINGS_BACKEND]).toEqual(['/usr/bin', 'memory']);
    expect(new Set([TMPDIR, TEMP, TMP]).size).toBe(1);
    expect(realpathSync(TMPDIR ?? '')).toBe(realpathSync(join(data, 'temporary')));
    expect(Object.keys(places).toSorted()).toEqual(
      ['BAGWRIGHT_DATA', 'HOME', 'XDG_CACHE_HOME', 'XDG_CONFIG_HOME', 'XDG_DATA_HOME', 'XDG_STATE_HOME'].toSorted(),
    );
    for (const place of Object.values(places)) expect(`${place}/`.startsWith(`${data}/`), place).toBe(true);
    if (process.platform !== 'win32') expect(statSync(data).mode & 0o777).toBe(0o700);
  });

  it('leaves the home folder alone on systems that do not go by it', () => {
    const environment: Record<string, string | undefined> = { HOME: '/Users/a' };
    const program = marked();
    goPortable(program, environment, 'darwin');
    expect(environment).toEqual({
      HOME: '/Users/a',
      BAGWRIGHT_DATA: join(program, 'bagwright-data'),
      TMPDIR: join(program, 'bagwright-data', 'temporary'),
      TEMP: join(program, 'bagwright-data', 'temporary'),
      TMP: join(program, 'bagwright-data', 'temporary'),
    });
  });

  // 107 bytes are the system's limit for a socket's path (man 7 unix); a browser adds 45 of its own.
  it.runIf(process.platform === 'linux')('gives the temporary files a short name where theirs is too long', () => {
    const program = join(scratchFolder(), 'ö'.repeat(60));
    mkdirSync(program);
    writeFileSync(join(program, markerName), '');
    const environment: Record<string, string | undefined> = {};
    goPortable(program, environment, 'linux');
    expect(Buffer.byteLength(environment['TMPDIR'] ?? '')).toBeLessThanOrEqual(60);
    writeFileSync(join(environment['TMPDIR'] ?? '', 'a'), 'x');
    expect(readdirSync(join(program, 'bagwright-data', 'temporary'))).toEqual(['a']);
  });

  it('keeps the display’s key, which lies in the home folder', () => {
    const home = scratchFolder();
    writeFileSync(join(home, '.Xauthority'), 'key');
    const environment: Record<string, string | undefined> = { HOME: home };
    goPortable(marked(), environment, 'linux');
    expect(environment['XAUTHORITY']).toBe(join(home, '.Xauthority'));
  });

  it('does nothing where it is not, and gives way to a folder that is named', () => {
    const without = scratchFolder();
    expect(goPortable(without, {}, 'linux')).toBeNull();
    expect(readdirSync(without)).toEqual([]);
    const program = marked();
    const environment = { BAGWRIGHT_DATA: '/elsewhere' };
    expect(goPortable(program, environment, 'linux')).toBeNull();
    expect([environment, readdirSync(program)]).toEqual([{ BAGWRIGHT_DATA: '/elsewhere' }, [markerName]]);
  });

  it('says so where the folder cannot be made', () => {
    const program = marked();
    writeFileSync(join(program, 'bagwright-data'), 'a file, no folder');
    expect(() => goPortable(program, {}, 'linux')).toThrow(
      /bagwright-portable makes Bagwright portable, but .* cannot/,
    );
  });

  it('clears what was left among the temporary files, and only there', () => {
    const program = marked();
    const portable = goPortable(program, {}, 'linux');
    const temporary = join(program, 'bagwright-data', 'temporary');
    mkdirSync(join(temporary, 'left'));
    writeFileSync(join(temporary, 'left', 'a'), 'x');
    writeFileSync(join(program, 'bagwright-data', 'kept'), 'x');
    portable?.clearTemporary();
    expect([readdirSync(temporary), existsSync(join(program, 'bagwright-data', 'kept'))]).toEqual([[], true]);
  });
});

describe('the desktop shell with the marker beside it', () => {
  const set = ['BAGWRIGHT_DATA', 'TMPDIR', 'TEMP', 'TMP', 'HOME', 'XAUTHORITY', 'GSETTINGS_BACKEND'];
  const places = ['CONFIG', 'CACHE', 'DATA', 'STATE'].map((name) => `XDG_${name}_HOME`);
  // What the shell sets is put back to what it was.
  beforeEach(() => [...set, ...places].forEach((name) => vi.stubEnv(name, process.env[name])));
  beforeEach(() => vi.stubEnv('BAGWRIGHT_DATA', undefined));
  afterEach(() => vi.unstubAllEnvs());

  it('keeps its profile and its temporary files there, before anything else is set up', () => {
    const program = marked();
    const built = join(program, 'dist');
    mkdirSync(built);
    app.firstInstance = false;
    startShell(built);
    const data = join(program, 'bagwright-data');
    expect(app.paths.get('userData')).toBe(join(data, 'electron'));
    expect(realpathSync(app.paths.get('temp') ?? '')).toBe(realpathSync(join(data, 'temporary')));
    expect(app.quit).toHaveBeenCalled();
  });

  it('does not start where its folder cannot be made', () => {
    const program = marked();
    writeFileSync(join(program, 'bagwright-data'), 'a file, no folder');
    app.exit.mockClear();
    startShell(join(program, 'dist'));
    expect(app.exit).toHaveBeenCalledWith(3);
  });
});
