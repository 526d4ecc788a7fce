import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { root } from '../support/tracked.ts';
import { isPermissive } from './permissive.ts';

interface Locked {
  version?: string;
  resolved?: string;
  integrity?: string;
  license?: string;
  link?: boolean;
  dev?: boolean;
}

const lock = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')) as { packages: Record<string, Locked> };
const locked = Object.entries(lock.packages).filter(([path]) => path !== '');
const nameOf = (path: string) => path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length);

/** The licence as the installed package states it; the lock's word for one that is not installed on this system. */
function licenceOf(path: string, entry: Locked): string {
  const manifest = join(root, path, 'package.json');
  if (!existsSync(manifest)) return entry.license ?? 'none stated';
  const { license } = JSON.parse(readFileSync(manifest, 'utf8')) as { license?: unknown };
  return typeof license === 'string' ? license : 'none stated';
}

describe('the packages', () => {
  it('are many', () => {
    expect(locked.length).toBeGreaterThan(100);
  });

  it('hold neither of the spreadsheet readers with known holes', () => {
    expect(locked.map(([path]) => nameOf(path)).filter((name) => name === 'xlsx' || name === 'exceljs')).toEqual([]);
  });

  it('all come from the registry, with a checksum', () => {
    // The lock leaves `resolved` out for a package of the registry; one from elsewhere always says where.
    const registry = 'https://registry.npmjs.org/';
    const odd = locked.filter(
      ([, { resolved = registry, integrity = '', link = false }]) =>
        link || !resolved.startsWith(registry) || !integrity.startsWith('sha512-'),
    );
    expect(odd.map(([path]) => path)).toEqual([]);
  });

  it('are asked for by exact version', () => {
    const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as Record<
      string,
      Record<string, string>
    >;
    const asked = Object.entries({ ...manifest['dependencies'], ...manifest['devDependencies'] });
    expect(asked.filter(([, version]) => !/^(npm:[\w@/-]+@)?\d+\.\d+\.\d+(-[\w.]+)?$/.test(version))).toEqual([]);
  });

  it('that ship with the program carry permissive licences', () => {
    const shipped = locked.filter(([, { dev = false }]) => !dev);
    expect(shipped.length).toBeGreaterThan(10);
    const others = shipped.map(([path, entry]) => `${nameOf(path)}: ${licenceOf(path, entry)}`);
    expect(others.filter((line) => !isPermissive(line.slice(line.indexOf(': ') + 2)))).toEqual([]);
  });
});

/**
 * The registry's `latest` of the package `electron` on that day; Electron's page on support says that the latest three stable
 * majors are supported, its page on timelines that one comes every eight weeks. Whoever moves Electron looks again.
 */
const looked = { on: '2026-11-26', latestMajor: 45 };

describe('Electron', () => {
  it('is of the newest major there was when it was looked at last, which is a supported one', () => {
    const { version = '' } = lock.packages['node_modules/electron'] ?? {};
    const major = Number(version.split('.')[0]);
    expect(major).toBeLessThanOrEqual(looked.latestMajor);
    // One major is eight weeks.
    expect(looked.latestMajor - major).toBeLessThan(1);
    const { devDependencies } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
      devDependencies: Record<string, string>;
    };
    expect(devDependencies['electron']).toBe(version);
  });
});

describe('a licence', () => {
  it.each([
    ['MIT', true],
    ['(MIT OR GPL-3.0-or-later)', true],
    ['(MIT AND Zlib)', true],
    ['MIT AND GPL-2.0-only', false],
    ['GPL-3.0', false],
    ['SEE LICENSE IN LICENSE.txt', false],
    ['none stated', false],
    ['', false],
  ])('%s is permissive: %s', (licence, expected) => {
    expect(isPermissive(licence)).toBe(expected);
  });
});
