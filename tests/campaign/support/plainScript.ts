/** A source as one plain file, made once: a campaign starts it many times, and each time it is up at once. */
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

const root = fileURLToPath(new URL('../../../', import.meta.url));

/** @param source - from the root of the repository */
export async function plainScript(source: string, outDir: string): Promise<string> {
  const name = `${basename(source, '.ts')}.mjs`;
  await build({
    configFile: false,
    logLevel: 'error',
    ssr: { noExternal: true, target: 'node' },
    build: {
      ssr: join(root, source),
      outDir,
      target: 'node20',
      rolldownOptions: { output: { entryFileNames: name } },
    },
  });
  return join(outDir, name);
}
