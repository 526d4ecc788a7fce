import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { playwright } from '@vitest/browser-playwright';
import { defineConfig } from 'vitest/config';

const root = fileURLToPath(new URL('..', import.meta.url));

/** Chromium's flags for a machine without a network: it otherwise looks its makers up at every start. */
const quiet = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export default defineConfig({
  root,
  test: {
    projects: [
      {
        test: {
          name: 'unit',
          root,
          environment: 'node',
          include: ['tests/{engine,shared-types,electron,host,data,reference,architecture}/**/*.test.ts'],
          testTimeout: 60_000,
        },
      },
      {
        test: { name: 'validation', root, environment: 'node', include: ['tests/validation/**/*.test.ts'], testTimeout: 60_000 },
      },
      {
        root,
        plugins: [react()],
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.{ts,tsx}'],
          browser: {
            enabled: true,
            headless: true,
            screenshotFailures: false,
            provider: playwright({
              launchOptions: { executablePath: process.env['CHROMIUM_PATH'] ?? '/usr/bin/chromium', args: quiet },
            }),
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
          testTimeout: 120_000,
          hookTimeout: 120_000,
          fileParallelism: false,
        },
      },
    ],
  },
});
