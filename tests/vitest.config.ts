import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { playwright } from '@vitest/browser-playwright';
import { defineConfig } from 'vitest/config';
import type { Plugin } from 'vite';
import { mustDropSandbox, quietArguments } from '../electron/launch/browserArguments.ts';
import { findBrowser } from '../electron/launch/findBrowser.ts';
import { axe } from './support/axeCommand.ts';
import { look } from './support/lookCommand.ts';
import LongestFirst from './support/longestFirst.ts';

// What ships is tested: React's own checks of development take more than half of a browser's time. `NODE_ENV=development`
// before the command has them back, with their warnings.
if (process.env['NODE_ENV'] !== 'development') process.env['NODE_ENV'] = 'production';

const root = fileURLToPath(new URL('..', import.meta.url));

/** `npm test` names the browser it found or installed; a suite run by hand looks for one itself. */
const executablePath = process.env['CHROMIUM_PATH'] ?? findBrowser() ?? '/usr/bin/chromium';

const args = ['--disable-gpu', ...quietArguments, ...(mustDropSandbox() ? ['--no-sandbox'] : [])];

/** Vitest leaves one core free, which on two is half of them. */
const everyCore = Math.max(2, availableParallelism());

/** Tests of functions: they mock nothing and set nothing that outlasts a file, so that no file can disturb the next. */
const pure = ['tests/{data,electron/headless,engine,features,mutants,reference,regression}/**/*.test.ts'];

/** Long enough that a machine busy with other things fails nothing; what hangs is stopped all the same. */
const [testTimeout, hookTimeout] = [180_000, 180_000];

/** What is to come may take longer on a busy machine than the second of Vitest's own; what comes in time is not waited for. */
const expected = { poll: { timeout: 20_000 } };

/**
 * The browser keeps what it has loaded from file to file: nothing changes while the tests run, and to be asked anew for
 * each of a thousand modules took the server and the browser longer than many a file's tests.
 */
const keptModules: Plugin = {
  name: 'kept-modules',
  configureServer({ middlewares }) {
    middlewares.use((request, response, next) => {
      const set = response.setHeader.bind(response);
      const kept = /^\/(?:renderer|shared-types|data|node_modules)\//.test(request.url ?? '');
      response.setHeader = (name, value) => set(name, kept && value === 'no-cache' ? 'max-age=3600, immutable' : value);
      next();
    });
  },
};

export default defineConfig({
  root,
  test: {
    sequence: { sequencer: LongestFirst },
    projects: [
      {
        test: {
          name: 'pure',
          root,
          environment: 'node',
          include: pure,
          // A worker keeps what it has loaded: to load the engine anew for each file took as long as a third of the tests.
          isolate: false,
          testTimeout,
          hookTimeout,
          expect: expected,
          maxWorkers: everyCore,
        },
      },
      {
        test: {
          name: 'unit',
          root,
          environment: 'node',
          // Everything the other projects do not take, so that no test file can fall between them.
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/{validation,browser,e2e}/**', ...pure],
          testTimeout,
          hookTimeout,
          expect: expected,
          maxWorkers: everyCore,
        },
      },
      {
        test: {
          name: 'validation',
          root,
          environment: 'node',
          include: ['tests/validation/**/*.test.ts'],
          isolate: false,
          testTimeout,
          hookTimeout,
          expect: expected,
          maxWorkers: everyCore,
        },
      },
      {
        root,
        plugins: [react(), keptModules],
        // Named beforehand: a package first met in the middle of a run makes Vite reload the page under the tests.
        optimizeDeps: {
          include: [
            'react',
            'react-dom',
            'react-dom/client',
            'react/jsx-runtime',
            'react/jsx-dev-runtime',
            '@mantine/core',
            '@mantine/hooks',
            '@mantine/modals',
            '@mantine/spotlight',
            '@tanstack/react-virtual',
            '@visx/axis',
            '@visx/group',
            '@visx/scale',
            '@visx/shape',
            'convert-units',
            'dexie',
            'dexie-react-hooks',
            'fflate',
            'highs',
            'lean-qr',
            'papaparse',
            'zod',
            'vitest-browser-react',
          ],
        },
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.{ts,tsx}'],
          setupFiles: ['tests/browser/support/actAsShipped.ts'],
          testTimeout,
          hookTimeout,
          expect: expected,
          maxWorkers: everyCore,
          browser: {
            enabled: true,
            headless: true,
            screenshotFailures: false,
            commands: { axe, look },
            provider: playwright({ launchOptions: { executablePath, args } }),
            instances: [{ browser: 'chromium', viewport: { width: 1280, height: 800 } }],
          },
        },
      },
      {
        test: {
          name: 'e2e',
          root,
          environment: 'node',
          include: ['tests/e2e/**/*.test.ts'],
          testTimeout,
          hookTimeout,
          expect: expected,
          // One more than the cores: much of a file is spent waiting for a browser or a process to start.
          maxWorkers: 3,
        },
      },
    ],
  },
});
