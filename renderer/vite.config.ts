import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

export default defineConfig({
  root: fileURLToPath(new URL('.', import.meta.url)),
  // The window is served from a loopback address and from the shell's own scheme: no path may be absolute.
  base: './',
  publicDir: false,
  plugins: [react()],
  worker: { format: 'es' },
  build: {
    target: 'chrome140',
    outDir: fileURLToPath(new URL('../dist/renderer', import.meta.url)),
    emptyOutDir: true,
    // Inlined files would need `data:` in the policy of every kind of file.
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 1500,
    // What several places share is one file: of eighty small ones the window waited for each before it could begin.
    rolldownOptions: { output: { codeSplitting: { groups: [{ name: 'shared', minShareCount: 2 }] } } },
  },
});
