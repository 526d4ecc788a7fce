/** Where the data lie and who may read them: acceptance lines S25 and R29. */
import { chmodSync, mkdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { dataFolder, foldersIn, keepPrivate, makeFolders } from '../../electron/launch/dataFolder.ts';
import { helloKey } from '../../electron/launch/token.ts';
import { privateTemporary } from '../../electron/files/privateTemporary.ts';
import { safeFileName } from '../../shared-types/fileName.ts';
import { hostileNames, isSafeOnWindows } from '../host/hostileNames.ts';
import { scratchFolder } from './support/site.ts';

const modeOf = (path: string): number => statSync(path).mode & 0o777;

describe('the data folder', () => {
  it.each([
    ['linux', {}, '/home/a/.local/share/bagwright'],
    ['linux', { XDG_DATA_HOME: '/data' }, '/data/bagwright'],
    ['linux', { XDG_DATA_HOME: 'relative' }, '/home/a/.local/share/bagwright'],
    ['linux', { XDG_DATA_HOME: '' }, '/home/a/.local/share/bagwright'],
    ['darwin', {}, '/home/a/Library/Application Support/bagwright'],
    ['win32', { LOCALAPPDATA: '/local' }, '/local/bagwright'],
    ['win32', {}, '/home/a/AppData/Local/bagwright'],
    ['linux', { BAGWRIGHT_DATA: '/stick/bag' }, '/stick/bag'],
    ['win32', { BAGWRIGHT_DATA: '/stick/bag', LOCALAPPDATA: '/local' }, '/stick/bag'],
  ] as const)('on %s with %j is %s', (platform, environment, expected) => {
    expect(dataFolder(environment, platform, '/home/a')).toBe(expected);
  });

  it('keeps its profiles where they always were', () => {
    expect(foldersIn('/d')).toEqual({
      data: '/d',
      journal: '/d/journal',
      snapshots: '/d/snapshots',
      browserProfile: '/d/browser',
      electronProfile: '/d/electron',
    });
  });

  it('is the user’s alone, whatever the mask and even where it stood open before', () => {
    const data = join(scratchFolder(), 'deep', 'bagwright');
    const before = process.umask(0);
    try {
      mkdirSync(join(data, 'browser'), { recursive: true });
      chmodSync(data, 0o777);
      const folders = foldersIn(data);
      makeFolders(folders);
      expect(Object.values(folders).map(modeOf)).toEqual([0o700, 0o700, 0o700, 0o700, 0o700]);
      helloKey(data);
      expect(modeOf(join(data, 'hello.key'))).toBe(0o600);
      expect(keepPrivate()).toBe(0);
      writeFileSync(join(data, 'later'), 'x');
      mkdirSync(join(data, 'room'));
      expect([modeOf(join(data, 'later')), modeOf(join(data, 'room'))]).toEqual([0o600, 0o700]);
    } finally {
      process.umask(before);
    }
  });

  it('keeps one key, and refuses a damaged one', () => {
    const data = scratchFolder();
    const key = helloKey(data);
    expect(key).toHaveLength(32);
    expect(helloKey(data).equals(key)).toBe(true);
    writeFileSync(join(data, 'hello.key'), 'short');
    expect(() => helloKey(data)).toThrow(/damaged/);
  });
});

describe('temporary files', () => {
  it('are private, keep two of one name apart, and are gone at the end', () => {
    const temporary = privateTemporary(scratchFolder());
    const [first, second] = [temporary.write('a.pdf', Uint8Array.of(1)), temporary.write('a.pdf', Uint8Array.of(2))];
    expect(first).not.toBe(second);
    expect([modeOf(first), modeOf(join(first, '..'))]).toEqual([0o600, 0o700]);
    temporary.remove();
    expect(statSync(first, { throwIfNoEntry: false })).toBeUndefined();
    expect(statSync(join(second, '..'), { throwIfNoEntry: false })).toBeUndefined();
  });
});

describe('a safe file name', () => {
  it.each(hostileNames)('is made of %j', (name) => {
    expect(safeFileName(name)).toSatisfy(isSafeOnWindows);
    // Made safe once, it stays as it is.
    expect(safeFileName(safeFileName(name))).toBe(safeFileName(name));
  });

  it.each([
    ['bag_B-1_2031-04-05.pdf', 'bag_B-1_2031-04-05.pdf'],
    ['3/8 Werkzeug ½ – ä.csv', '3-8 Werkzeug ½ – ä.csv'],
    ['CON', '_CON'],
    ['com1.json', '_com1.json'],
    ['..', 'bagwright'],
    ['.pdf', 'pdf'],
    ['console.txt', 'console.txt'],
  ])('of %j is %j', (name, expected) => {
    expect(safeFileName(name)).toBe(expected);
  });

  it('keeps its ending when it is cut', () => {
    expect(safeFileName(`${'ä'.repeat(400)}.json`)).toMatch(/^ä{97}\.json$/);
  });
});
