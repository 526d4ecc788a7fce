import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

const here = fileURLToPath(new URL('.', import.meta.url));

/** A sandboxed preload script is one CommonJS file and may require nothing but Electron. */
export default defineConfig({
  root: here,
  build: {
    outDir: fileURLToPath(new URL('../dist/preload', import.meta.url)),
    emptyOutDir: true,
    target: 'chrome140',
    minify: false,
    lib: { entry: `${here}preload.ts`, formats: ['cjs'], fileName: () => 'preload.cjs' },
    rolldownOptions: { external: ['electron'], output: { codeSplitting: false } },
  },
});
