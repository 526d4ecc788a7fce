/** Builds the page without screens, as the program's own page is built, into a folder that the server can serve. */
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

export async function buildBurstSite(folder: string): Promise<string> {
  const outDir = join(folder, 'burst-site');
  rmSync(outDir, { recursive: true, force: true });
  await build({
    root: fileURLToPath(new URL('burst/', import.meta.url)),
    configFile: false,
    base: './',
    publicDir: false,
    logLevel: 'error',
    build: { target: 'chrome140', outDir, emptyOutDir: true, assetsInlineLimit: 0 },
  });
  return outDir;
}
