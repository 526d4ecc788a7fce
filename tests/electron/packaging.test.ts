/**
 * What is packed, and how: acceptance line S9. The real program file cannot be had everywhere, so the whole packing is run on
 * a stand-in that carries a wire of fuses as Electron's does; a real package is read where one lies in `dist/packages`.
 */
import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { extractFile, listPackage } from '@electron/asar';
import { FuseV1Options, getCurrentFuseWire } from '@electron/fuses';
import { build, Platform, type AfterPackContext } from 'electron-builder';
import { extract } from 'tar';
import { beforeAll, describe, expect, it, type TestContext } from 'vitest';
import { packingOf, programIn } from '../../electron/packaging/configuration.ts';
import { noticesOf } from '../../electron/packaging/notices.ts';
import { readFuses, setFuses, wantedFuses, wrongFuses } from '../../electron/packaging/fuses.ts';
import { packTar } from '../../electron/packaging/tarball.ts';
import { root } from '../support/tracked.ts';
import { scratchFolder } from './support/site.ts';

/** Electron's list of fuses and what each should be, from its guide on fuses and the trust a packaged program needs. */
const asked = [
  ['RunAsNode', 'off'],
  ['EnableCookieEncryption', 'on'],
  ['EnableNodeOptionsEnvironmentVariable', 'off'],
  ['EnableNodeCliInspectArguments', 'off'],
  ['EnableEmbeddedAsarIntegrityValidation', 'on'],
  ['OnlyLoadAppFromAsar', 'on'],
  ['GrantFileProtocolExtraPrivileges', 'off'],
] as const;

/** The mark before the wire, as Electron's build writes it; then the wire's version and length, and a sign for each fuse. */
const mark = 'dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX';
const programFile = (wire: string): Buffer =>
  Buffer.concat([
    Buffer.alloc(3_000, 7),
    Buffer.from(mark),
    Buffer.of(1, wire.length),
    Buffer.from(wire),
    Buffer.alloc(99),
  ]);

/** As the tool's own reader, not ours, finds them. */
async function wireOf(program: string): Promise<[string, string][]> {
  const wire: Partial<Record<FuseV1Options, number>> = await getCurrentFuseWire(program);
  return asked.map(([name]) => [name, { 48: 'off', 49: 'on' }[wire[FuseV1Options[name]] ?? 0] ?? 'absent']);
}

function written(file: string, bytes: string | Buffer): string {
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, bytes, { mode: 0o755 });
  return file;
}

describe('the fuses', () => {
  it('wanted are these seven', () => {
    expect(Object.entries(wantedFuses).map(([name, on]) => [name, on ? 'on' : 'off'])).toEqual(asked);
  });

  // As Electron comes, with two fuses of a later version behind the eight that are known.
  it.each(['10110011', '1011001110', '00000000', '11111111'])('take in a file that has %s, 7 of 7', async (wire) => {
    const program = written(join(scratchFolder(), 'electron'), programFile(wire));
    await setFuses(program);
    expect(await wireOf(program)).toEqual(asked);
    expect(wrongFuses(await readFuses(program))).toEqual([]);
    expect(readFileSync(program).length).toBe(programFile(wire).length);
  });

  it('that are otherwise are named', async () => {
    const program = written(join(scratchFolder(), 'electron'), programFile('1011r011'));
    expect(wrongFuses(await readFuses(program))).toEqual([
      'RunAsNode is on and must be off',
      'EnableCookieEncryption is off and must be on',
      'EnableNodeOptionsEnvironmentVariable is on and must be off',
      'EnableNodeCliInspectArguments is on and must be off',
      'EnableEmbeddedAsarIntegrityValidation is absent and must be on',
      'OnlyLoadAppFromAsar is off and must be on',
      'GrantFileProtocolExtraPrivileges is on and must be off',
    ]);
  });

  it('of a file without a wire, or with too short a one, stop the packing', async () => {
    await expect(setFuses(written(join(scratchFolder(), 'a'), 'no program'))).rejects.toThrow(/sentinel/);
    await expect(setFuses(written(join(scratchFolder(), 'b'), programFile('1011')))).rejects.toThrow(/long enough/);
  });

  it.each([
    ['linux', 'bagwright', 'bagwright'],
    ['win32', 'Bagwright.exe', 'Bagwright.exe'],
    ['darwin', 'Bagwright.app', 'Bagwright.app/Contents/Frameworks/Electron Framework.framework/Electron Framework'],
  ])('of a package for %s are in %s', async (electronPlatformName, program, holder) => {
    const appOutDir = scratchFolder();
    const packed = { appOutDir, electronPlatformName, packager: { appInfo: { productFilename: 'Bagwright' } } };
    const context = packed as unknown as AfterPackContext;
    expect(programIn(context)).toBe(join(appOutDir, program));
    written(join(appOutDir, holder), programFile('10110011'));
    const { afterPack } = packingOf({ electronFolder: '', icon: '', notices: '', output: '' });
    if (typeof afterPack !== 'function') throw new Error('there is no step after packing');
    await afterPack(context);
    expect(await wireOf(join(appOutDir, program))).toEqual(asked);
  });
});

describe('a package', () => {
  let out = '';
  const packed = (): string => join(out, 'linux-unpacked', 'resources', 'app.asar');
  beforeAll(async () => {
    const project = scratchFolder();
    out = join(project, 'out');
    const text = JSON.stringify({
      name: 'bagwright',
      version: '1.2.3',
      main: 'dist/main/main.js',
      author: 'Bagwright',
    });
    written(join(project, 'package.json'), text);
    for (const file of ['dist/files.json', 'dist/main/main.js', 'dist/preload/preload.cjs', 'dist/renderer/index.html'])
      written(join(project, file), `${file}\n`);
    for (const file of [
      '.env',
      'data/plan.json',
      'tests/a.test.ts',
      'electron/main.ts',
      'dist/packages/old',
      'README.md',
    ])
      written(join(project, file), 'must not be packed');
    written(join(project, 'node_modules/stray/index.js'), 'must not be packed');
    written(join(project, 'dist/main/node_modules/stray/index.js'), 'must not be packed');
    const electron = join(project, 'electron-dist');
    written(join(electron, 'electron'), programFile('101100110'));
    mkdirSync(join(electron, 'resources'));
    const notices = written(join(project, 'notices.txt'), 'licences\n');
    // The kind without a compressor; on any system it is Linux's, whose program needs no other tool.
    await build({
      projectDir: project,
      targets: Platform.LINUX.createTarget('dir'),
      publish: 'never',
      config: {
        ...packingOf({ electronFolder: electron, icon: join(root, 'renderer', 'icon.svg'), notices, output: out }),
        electronVersion: '45.5.0',
      },
    });
  });

  it('holds the built program, and nothing else of the folder it was made in', () => {
    const files = listPackage(packed(), { isPack: false }).filter((path) => /\.\w+$/.test(path));
    expect(files.toSorted()).toEqual([
      '/dist/files.json',
      '/dist/main/main.js',
      '/dist/preload/preload.cjs',
      '/dist/renderer/index.html',
      '/package.json',
    ]);
    expect(extractFile(packed(), 'dist/main/main.js').toString()).toBe('dist/main/main.js\n');
    expect(JSON.parse(extractFile(packed(), 'package.json').toString())).toMatchObject({ main: 'dist/main/main.js' });
  });

  it('comes as one file too, which anybody’s tar opens to the same', async () => {
    const file = await packTar(out);
    const opened = scratchFolder();
    await extract({ file, cwd: opened });
    const program = join(opened, 'bagwright', 'bagwright');
    expect(readFileSync(program).equals(readFileSync(join(out, 'linux-unpacked', 'bagwright')))).toBe(true);
    if (process.platform !== 'win32') expect(statSync(program).mode & 0o111).toBe(0o111);
    const first = readFileSync(file);
    expect(readFileSync(await packTar(out)).equals(first)).toBe(true);
  });

  it('has its fuses set, the licences beside it, and nothing that would look for updates', async () => {
    const folder = join(out, 'linux-unpacked');
    expect(await wireOf(join(folder, 'bagwright'))).toEqual(asked);
    expect(readFileSync(join(folder, 'LICENSES.bundled.txt'), 'utf8')).toBe('licences\n');
    expect(existsSync(join(folder, 'resources', 'app-update.yml'))).toBe(false);
  });
});

describe('the packing', () => {
  const packing = packingOf({ electronFolder: '/e', icon: '/i.png', notices: '/n', output: '/o' });

  it('has kinds for three systems, publishes nothing and writes nothing for an updater', () => {
    expect([packing.linux?.target, packing.win?.target, packing.mac?.target]).toEqual([
      ['AppImage'],
      ['zip', 'nsis'],
      ['zip', 'dmg'],
    ]);
    expect(packing).toMatchObject({ publish: null, asar: true, electronDist: '/e', npmRebuild: false });
    expect(packing.nsis).toMatchObject({
      perMachine: false,
      differentialPackage: false,
      deleteAppDataOnUninstall: false,
    });
    expect(packing.dmg).toEqual({ writeUpdateInfo: false });
  });

  it('passes on the licence of every package that ships', () => {
    const lock = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')) as {
      packages: Record<string, { dev?: boolean; optional?: boolean }>;
    };
    const shipped = Object.entries(lock.packages).filter(
      ([path, { dev = false }]) => path !== '' && !dev && existsSync(join(root, path)),
    );
    const notices = noticesOf(root);
    expect(shipped.length).toBeGreaterThan(30);
    const lacking = shipped.filter(([path]) => !notices.includes(`\n${path.slice(path.lastIndexOf('modules/') + 8)} `));
    expect(lacking.map(([path]) => path)).toEqual([]);
    expect(notices).toMatch(/react 19[^]*Permission is hereby granted/);
    expect(notices).toMatch(/atkinson[^]*SIL Open Font License/i);
  });
});

const names: Partial<Record<NodeJS.Platform, string>> = {
  linux: 'linux-unpacked/bagwright',
  win32: 'win-unpacked/Bagwright.exe',
  darwin: 'mac/Bagwright.app',
};
const real = join(root, 'dist', 'packages', names[process.platform] ?? 'none');

describe('the real package', () => {
  const present = (ctx: TestContext): string =>
    existsSync(real) ? real : ctx.skip('No packaged program in dist/packages: not run here');

  it('has its fuses set, 7 of 7', async (ctx) => {
    expect(await wireOf(present(ctx))).toEqual(asked);
  });

  const openings: [string, string[], Record<string, string>][] = [
    ['run as Node', ['-e', 'console.log("ran " + 6 * 7)'], { ELECTRON_RUN_AS_NODE: '1' }],
    ['given options of Node', ['--version-of-none'], { NODE_OPTIONS: '--require=/nowhere.js' }],
    ['inspected', ['--inspect=0'], {}],
    ['debugged from afar', ['--remote-debugging-port=0'], {}],
  ];
  for (const [how, given, more] of openings) {
    it(`gives nothing away when it is ${how}`, async (ctx) => {
      const started = spawn(present(ctx), given, { env: { ...process.env, ...more, BAGWRIGHT_DATA: scratchFolder() } });
      let said = '';
      for (const from of [started.stdout, started.stderr]) from.on('data', (part: Buffer) => (said += String(part)));
      setTimeout(() => started.kill('SIGKILL'), 5_000).unref();
      await new Promise((resolve) => started.on('close', resolve));
      expect(said).not.toMatch(/ran 42|listening on ws|Cannot find module/);
    });
  }
});
