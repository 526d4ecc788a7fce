/** A small build on disk, in the place of the real one. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll } from 'vitest';
import { listFiles, loadSite, mapFileName, type Site } from '../../../electron/site/buildMap.ts';

const samplePage =
  '<!doctype html><html lang="en"><head><meta property="csp-nonce" nonce="__CSP_NONCE__">' +
  '<meta name="bagwright-token" content="__TOKEN__"><title>Bagwright</title></head><body></body></html>';

const files: Record<string, string> = {
  'index.html': samplePage,
  'assets/index-1a2b.js': 'export const one = 1;\n',
  'assets/index-1a2b.css': 'body { margin: 0 }\n',
  'assets/solver-3c4d.wasm': '\0asm',
};

/** The folder that holds `renderer/` and its list, as `dist/` does. */
export function sampleBuild(): string {
  const built = scratchFolder();
  for (const [path, text] of Object.entries(files)) {
    const file = join(built, 'renderer', path);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, text);
  }
  writeFileSync(join(built, mapFileName), JSON.stringify(listFiles(join(built, 'renderer'))));
  return built;
}

export function sampleSite(): Site {
  const folder = join(sampleBuild(), 'renderer');
  return loadSite(folder, listFiles(folder));
}

const scratch: string[] = [];
afterAll(() => scratch.splice(0).forEach((folder) => rmSync(folder, { recursive: true, force: true })));

/** A folder of the test's own, gone when its file of tests ends. */
export function scratchFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'bagwright-test-'));
  scratch.push(folder);
  return folder;
}
