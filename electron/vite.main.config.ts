import { builtinModules } from 'node:module';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

const here = fileURLToPath(new URL('.', import.meta.url));

/** The main process: one module for the Node inside Electron, everything but Electron itself bundled in. */
export default defineConfig({
  root: here,
  ssr: { noExternal: true, external: ['electron'], target: 'node' },
  build: {
    ssr: `${here}main.ts`,
    outDir: fileURLToPath(new URL('../dist/main', import.meta.url)),
    emptyOutDir: true,
    target: 'node24',
    minify: false,
    rolldownOptions: {
      external: ['electron', ...builtinModules, /^node:/],
      output: { format: 'es', entryFileNames: 'main.js' },
    },
  },
});
