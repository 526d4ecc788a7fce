/** A copy of the built program with the marker beside it, and a home of its own to look at afterwards. */
import { chmodSync, cpSync, mkdirSync, readdirSync, symlinkSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { buildIfNeeded, root } from '../../../electron/launch/build.ts';
import { markerName } from '../../../electron/portable.ts';
import { chromiumHere } from './openBuilt.ts';

export interface PortableCopy {
  folder: string;
  data: string;
  /** For the program: nothing of the machine's own places, each in their stead an empty folder. */
  environment: Record<string, string>;
  /** Whatever was made in those folders. */
  strayFiles: () => string[];
}

const taken = ['.npmrc', 'package.json', 'package-lock.json', 'electron', 'shared-types'];

/** `under` is an empty folder. */
export async function portableCopy(under: string): Promise<PortableCopy> {
  await buildIfNeeded();
  const folder = join(under, 'program');
  for (const name of taken) cpSync(join(root, name), join(folder, name), { recursive: true, preserveTimestamps: true });
  for (const name of ['main', 'preload', 'renderer', 'files.json']) {
    cpSync(join(root, 'dist', name), join(folder, 'dist', name), { recursive: true });
  }
  symlinkSync(join(root, 'node_modules'), join(folder, 'node_modules'));
  // Newer than what it was made of, so that it is not built anew.
  const later = new Date(Date.now() + 60_000);
  utimesSync(join(folder, 'dist', 'files.json'), later, later);
  writeFileSync(join(folder, markerName), '');
  const places = Object.fromEntries(
    ['HOME', 'TMPDIR', 'XDG_CONFIG_HOME', 'XDG_CACHE_HOME', 'XDG_DATA_HOME', 'XDG_STATE_HOME', 'XDG_RUNTIME_DIR'].map(
      (name) => [name, join(under, 'outside', name)],
    ),
  );
  for (const place of Object.values(places)) mkdirSync(place, { recursive: true, mode: 0o700 });
  // The window's own way of starting, shown to nobody.
  const browser = join(under, 'browser');
  writeFileSync(browser, `#!/bin/sh\nexec '${chromiumHere()}' --headless=new --disable-gpu "$@"\n`);
  chmodSync(browser, 0o755);
  return {
    folder,
    data: join(folder, 'bagwright-data'),
    environment: { PATH: process.env['PATH'] ?? '', DISPLAY: ':0', BAGWRIGHT_BROWSER: browser, ...places },
    strayFiles: () => Object.values(places).flatMap((place) => readdirSync(place).map((name) => join(place, name))),
  };
}
