/**
 * `npm run build`: the page, the desktop shell and its preload script, then the list of the page's files. Everything is
 * made beside the old build and put in its place at the end, so a build that breaks leaves the last good one.
 */
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { listFiles, mapFileName } from '../site/buildMap.ts';
import { isAlive } from '../isAlive.ts';
import { isStale } from './staleness.ts';

export const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
export const siteFolder = join(root, 'dist', 'renderer');
export const siteMap = join(root, 'dist', mapFileName);

const parts = [
  { name: 'renderer', config: 'renderer/vite.config.ts', proof: 'renderer/index.html' },
  { name: 'main', config: 'electron/vite.main.config.ts', proof: 'main/main.js' },
  { name: 'preload', config: 'electron/vite.preload.config.ts', proof: 'preload/preload.cjs' },
];

export function needsBuild(): boolean {
  const outputs = [...parts.map(({ proof }) => join('dist', proof)), join('dist', mapFileName)];
  return isStale(root, outputs, join('dist', mapFileName));
}

/** Builds where the sources are newer than the build, once, whoever else asks at the same time. */
export async function buildIfNeeded(say: (words: string) => void = () => undefined): Promise<void> {
  if (!needsBuild()) return;
  await alone(async () => {
    if (!needsBuild()) return;
    say('Building Bagwright (only after a change, some seconds) …');
    await buildNow('error');
  });
}

export async function build(): Promise<void> {
  await alone(() => buildNow('info'));
}

async function buildNow(logLevel: 'info' | 'error'): Promise<void> {
  const { build: make } = await import('vite');
  const started = new Date();
  const dist = join(root, 'dist');
  // What a build that was killed left behind.
  for (const name of readdirSync(dist)) {
    if (name.startsWith('staging-')) rmSync(join(dist, name), { recursive: true, force: true });
  }
  const staging = join(dist, `staging-${process.pid}`);
  try {
    for (const { name, config } of parts) {
      const outDir = join(staging, name);
      await make({ configFile: join(root, config), logLevel, build: { outDir, emptyOutDir: true } });
    }
    const listed = JSON.stringify(listFiles(join(staging, 'renderer')), null, 1);
    for (const { name } of parts) {
      rmSync(join(dist, name), { recursive: true, force: true });
      renameSync(join(staging, name), join(dist, name));
    }
    writeFileSync(siteMap, listed);
    // Its time is when the build began: what changed meanwhile counts as newer.
    utimesSync(siteMap, started, started);
  } finally {
    rmSync(staging, { recursive: true, force: true });
  }
}

const lookEveryMs = 200;

/** A file is made by exactly one of those who try. One left behind by a build that was killed names a dead process. */
async function alone(work: () => Promise<void>): Promise<void> {
  const lock = join(root, 'dist', 'building');
  mkdirSync(dirname(lock), { recursive: true });
  while (!take(lock)) await new Promise((resolve) => setTimeout(resolve, lookEveryMs));
  try {
    await work();
  } finally {
    rmSync(lock, { force: true });
  }
}

function take(lock: string): boolean {
  try {
    writeFileSync(lock, String(process.pid), { flag: 'wx' });
    return true;
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code !== 'EEXIST') throw cause;
  }
  try {
    const holder = readFileSync(lock, 'utf8');
    // Empty for the moment between its making and its writing.
    if (holder !== '' && !isAlive(Number(holder))) rmSync(lock, { force: true });
  } catch {
    // Given back in this very moment: the next try will tell.
  }
  return false;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await build();
