/**
 * `npm run package`: the program packed for the system it runs on, into `dist/packages`. `npm run package -- tar.gz` makes
 * that kind alone, `-- dir` the unpacked folder. It packs the Electron that is in place, or that can be fetched.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { build, Platform } from 'electron-builder';
import { build as buildProgram, root } from '../launch/build.ts';
import { deadlineS, electronBinary, fetchElectron } from '../launch/electronBinary.ts';
import { findBrowser } from '../launch/findBrowser.ts';
import { packingOf } from './configuration.ts';
import { drawIcon } from './icon.ts';
import { noticesOf } from './notices.ts';
import { packTar } from './tarball.ts';

const kinds: Readonly<Partial<Record<NodeJS.Platform, readonly string[]>>> = {
  linux: ['dir', 'tar.gz', 'AppImage'],
  win32: ['dir', 'zip', 'nsis'],
  darwin: ['dir', 'zip', 'dmg'],
};

const tarKind = 'tar.gz';

class PackingRefused extends Error {
  override readonly name = 'PackingRefused';
}

async function main(asked: readonly string[]): Promise<void> {
  const known = kinds[process.platform];
  if (known === undefined) throw new PackingRefused(`Bagwright is not packed on ${process.platform}.`);
  const unknown = asked.find((kind) => !known.includes(kind));
  if (unknown !== undefined) {
    throw new PackingRefused(`"${unknown}" is not made here; there are ${known.join(', ')}.`);
  }
  const electron = electronBinary() ?? ((await fetchElectron(deadlineS())) ? electronBinary() : null);
  if (electron === null) {
    throw new PackingRefused(
      'Electron is not here and could not be fetched, and a package is made of it. Where it lies unpacked in a folder, ' +
        'name that in ELECTRON_OVERRIDE_DIST_PATH.',
    );
  }
  const browser = findBrowser();
  if (browser === null) {
    throw new PackingRefused(
      'The icon is drawn by Chrome, Edge, Brave or Chromium, and none was found on this machine.',
    );
  }
  await buildProgram();
  const beside = join(root, 'dist', 'packaging');
  mkdirSync(beside, { recursive: true });
  const [icon, notices] = [join(beside, 'icon.png'), join(beside, 'LICENSES.bundled.txt')];
  writeFileSync(icon, await drawIcon(join(root, 'renderer', 'icon.svg'), browser));
  writeFileSync(notices, noticesOf(root));
  const electronFolder = process.platform === 'darwin' ? join(dirname(electron), '..', '..', '..') : dirname(electron);
  const output = join(root, 'dist', 'packages');
  const wanted = asked.length === 0 ? known.filter((kind) => kind !== 'dir') : asked;
  // What electron-builder packs a tar with it would have to fetch; the unpacked folder needs nothing.
  const kindsToBuild = [...new Set(wanted.map((kind) => (kind === tarKind ? 'dir' : kind)))];
  const made = await build({
    projectDir: root,
    targets: Platform.current().createTarget(kindsToBuild),
    publish: 'never',
    config: packingOf({ electronFolder, icon, notices, output }),
  });
  if (wanted.includes(tarKind)) made.push(await packTar(output));
  process.stdout.write(`${made.length === 0 ? output : made.join('\n')}\n`);
}

try {
  await main(process.argv.slice(2));
} catch (cause) {
  process.stderr.write(`${cause instanceof Error ? cause.message : String(cause)}\n`);
  process.exitCode = cause instanceof PackingRefused ? 2 : 1;
}
