import type { Files } from '../support/folder.ts';

/** Packages the small trees import, as stand-ins: what is checked is who imports them, not what they do. */
const dependencies = ['@mantine/core', 'convert-units', 'dexie', 'highs', 'playwright-core', 'react', 'zod'];
const devDependencies = ['electron', 'fast-check', 'vite', 'vitest'];

function packages(): Record<string, string> {
  const versions = (names: string[]) => Object.fromEntries(names.map((name) => [name, '1.0.0']));
  const manifest = { dependencies: versions(dependencies), devDependencies: versions(devDependencies) };
  const files: Record<string, string> = { 'package.json': JSON.stringify(manifest) };
  for (const name of [...dependencies, ...devDependencies]) {
    files[`node_modules/${name}/package.json`] = JSON.stringify({ name, version: '1.0.0', main: 'index.js' });
    files[`node_modules/${name}/index.js`] = 'module.exports = {};';
  }
  return files;
}

/** A tree with every room in it and no fault. */
export const soundTree: Files = {
  ...packages(),
  'data/handbook/heads.json': '{}',
  'shared-types/schema.ts': "import { z } from 'zod';\nexport { z };",
  'shared-types/plan.ts': "import { z } from './schema.ts';\nexport const plan = z;\nexport type Plan = typeof plan;",
  'renderer/engine/index.ts':
    "import highs from 'highs';\nimport convert from 'convert-units';\nimport heads from '../../data/handbook/heads.json';\nimport type { Plan } from '../../shared-types/plan.ts';\nimport { reach } from './stack/reach.ts';\nexport const bag = (plan: Plan) => [plan, highs, convert, heads, reach];",
  'renderer/engine/stack/reach.ts': 'export const reach = 1;',
  'renderer/workers/bag.worker.ts': "import { bag } from '../engine/index.ts';\nexport const run = bag;",
  'renderer/store/plans.ts':
    "import dexie from 'dexie';\nimport type { Plan } from '../../shared-types/plan.ts';\nexport const plans: Plan[] = dexie;",
  'renderer/host/browser.ts': "import type { Plan } from '../../shared-types/plan.ts';\nexport let open: Plan;",
  'renderer/components/Quantity.tsx':
    "import react from 'react';\nimport { bag } from '../engine/index.ts';\nexport const Quantity = [react, bag];",
  'renderer/features/bag/BagScreen.tsx':
    "import { Quantity } from '../../components/Quantity.tsx';\nimport { open } from '../../host/browser.ts';\nimport { plans } from '../../store/plans.ts';\nimport { run } from '../../workers/bag.worker.ts';\nexport const BagScreen = [Quantity, open, plans, run];",
  'renderer/App.tsx': "import { BagScreen } from './features/bag/BagScreen.tsx';\nexport const App = BagScreen;",
  'renderer/main.tsx': "import { App } from './App.tsx';\nApp;",
  'renderer/vite.config.ts': "import vite from 'vite';\nexport default vite;",
  'electron/main.ts':
    "import electron from 'electron';\nimport type { Plan } from '../shared-types/plan.ts';\nimport { save } from './handlers/save.ts';\nexport const main = (plan: Plan) => [electron, save, plan];",
  'electron/handlers/save.ts': "import { writeFileSync } from 'node:fs';\nexport const save = writeFileSync;",
  'electron/launch/start.ts':
    "import playwright from 'playwright-core';\nimport { save } from '../handlers/save.ts';\nexport const start = [playwright, save];",
  'electron/launch/build.ts':
    "import vite from 'vite';\nimport config from '../../renderer/vite.config.ts';\nimport { start } from './start.ts';\nexport const build = [vite, config, start];",
  'electron/vite.main.config.ts': "import vite from 'vite';\nexport default vite;",
  'electron/headless/main.ts': "import { bag } from '../../renderer/engine/index.ts';\nexport const command = bag;",
  'tests/reference/bruteForce.ts':
    "import type { Plan } from '../../shared-types/plan.ts';\nexport const best = (plan: Plan) => plan;",
  'tests/engine/bag.test.ts':
    "import { it } from 'vitest';\nimport fastCheck from 'fast-check';\nimport { bag } from '../../renderer/engine/index.ts';\nimport { best } from '../reference/bruteForce.ts';\nit(bag, best, fastCheck);",
};

interface Fault {
  /** The one rule the fault breaks. */
  rule: string;
  /** The fault in words. */
  says: string;
  files: Files;
}

/** One line in one file: enough for most faults. */
const line = (rule: string, says: string, path: string, specifier: string): Fault => ({
  rule,
  says,
  files: { [path]: `import * as it from '${specifier}';\nexport const fault = it;` },
});

/** One planted fault or more for each rule of `dependency-cruiser.mjs`. */
export const faults: readonly Fault[] = [
  line('data-imports-nothing', 'code among the facts', 'data/handbook/read.ts', '../../shared-types/plan.ts'),
  line('shared-types-stand-alone', 'a shape needs the engine', 'shared-types/x.ts', '../renderer/engine/index.ts'),
  line('shared-types-stand-alone', 'a shape needs a library', 'shared-types/x.ts', 'react'),
  line('shared-types-stand-alone', 'a shape needs Node', 'shared-types/x.ts', 'node:path'),
  line('zod-through-schema', 'a shape takes zod as it comes', 'shared-types/x.ts', 'zod'),
  line('zod-through-schema', 'the engine takes zod as it comes', 'renderer/engine/x.ts', 'zod'),
  line('engine-looks-down', 'the engine needs the store', 'renderer/engine/x.ts', '../store/plans.ts'),
  line('engine-looks-down', 'the engine needs a worker', 'renderer/engine/x.ts', '../workers/bag.worker.ts'),
  line('engine-looks-down', 'the engine needs the shell', 'renderer/engine/x.ts', '../../electron/handlers/save.ts'),
  line('engine-without-node', 'the engine reads a file', 'renderer/engine/x.ts', 'node:fs'),
  line('engine-named-libraries', 'the engine draws', 'renderer/engine/x.ts', 'react'),
  line('engine-named-libraries', 'the engine has widgets', 'renderer/engine/x.ts', '@mantine/core'),
  line('workers-look-down', 'a worker needs the store', 'renderer/workers/x.ts', '../store/plans.ts'),
  line('workers-look-down', 'a worker needs a screen', 'renderer/workers/x.ts', '../features/bag/BagScreen.tsx'),
  line('store-look-down', 'the store needs the host', 'renderer/store/x.ts', '../host/browser.ts'),
  line('store-look-down', 'the store needs a screen', 'renderer/store/x.ts', '../features/bag/BagScreen.tsx'),
  line('host-look-down', 'the host needs the store', 'renderer/host/x.ts', '../store/plans.ts'),
  line('host-look-down', 'the host needs the shell', 'renderer/host/x.ts', '../../electron/handlers/save.ts'),
  line('components-look-down', 'a widget needs the store', 'renderer/components/x.tsx', '../store/plans.ts'),
  line('components-look-down', 'a widget reads a fact', 'renderer/components/x.tsx', '../../data/handbook/heads.json'),
  line('features-look-down', 'a feature needs the app', 'renderer/features/x.tsx', '../App.tsx'),
  line('features-look-down', 'a feature needs the shell', 'renderer/features/x.tsx', '../../electron/handlers/save.ts'),
  line('no-screen-below-screens', 'the store has a hook', 'renderer/store/x.ts', 'react'),
  line('no-screen-below-screens', 'the host has a widget', 'renderer/host/x.ts', '@mantine/core'),
  line('dexie-in-the-store', 'a screen queries the database', 'renderer/features/x.ts', 'dexie'),
  line('page-without-shell', 'a screen uses Node', 'renderer/features/x.ts', 'node:path'),
  line('page-without-shell', 'the app uses Node', 'renderer/theme.ts', 'node:os'),
  line('app-looks-down', 'the app needs the shell', 'renderer/theme.ts', '../electron/handlers/save.ts'),
  line('shell-meets-page-in-shared-types', 'the shell computes', 'electron/x.ts', '../renderer/engine/index.ts'),
  line('shell-meets-page-in-shared-types', 'the shell reads a fact', 'electron/x.ts', '../data/handbook/heads.json'),
  line('shell-meets-page-in-shared-types', 'a handler runs a command', 'electron/handlers/x.ts', '../headless/main.ts'),
  line('journal-for-both-hosts', 'the journal knows Electron', 'electron/journal/x.ts', 'electron'),
  line('journal-for-both-hosts', 'the journal needs a handler', 'electron/journal/x.ts', '../handlers/save.ts'),
  line('launch-looks-down', 'the launcher computes', 'electron/launch/x.ts', '../../renderer/engine/index.ts'),
  line('launch-looks-down', 'the launcher runs a command', 'electron/launch/x.ts', '../headless/main.ts'),
  line('build-looks-down', 'the settings compute', 'renderer/vite.config.ts', './engine/index.ts'),
  line('headless-looks-down', 'a command opens the shell', 'electron/headless/x.ts', '../handlers/save.ts'),
  line('headless-looks-down', 'a command needs the store', 'electron/headless/x.ts', '../../renderer/store/plans.ts'),
  line('electron-in-the-shell', 'the page knows Electron', 'renderer/host/x.ts', 'electron'),
  line('electron-in-the-shell', 'a command knows Electron', 'electron/headless/x.ts', 'electron'),
  line('electron-in-the-shell', 'the launcher starts a download', 'electron/launch/x.ts', 'electron'),
  line('playwright-in-launch-and-tests', 'a handler steers a browser', 'electron/handlers/x.ts', 'playwright-core'),
  line('program-without-test-tools', 'a screen needs a test tool', 'renderer/features/x.ts', 'fast-check'),
  line(
    'reference-stands-alone',
    'it takes the engine’s reach',
    'tests/reference/x.ts',
    '../../renderer/engine/stack/reach.ts',
  ),
  line(
    'reference-stands-alone',
    'it takes it through the index',
    'tests/reference/x.ts',
    '../../renderer/engine/index.ts',
  ),
  {
    rule: 'no-cycles',
    says: 'two files need each other',
    files: {
      'renderer/engine/a.ts': "import { b } from './b.ts';\nexport const a = () => b;",
      'renderer/engine/b.ts': "import { a } from './a.ts';\nexport const b = () => a;",
    },
  },
  {
    rule: 'no-cycles',
    says: 'two types need each other',
    files: {
      'shared-types/a.ts': "import type { B } from './b.ts';\nexport type A = { b: B };",
      'shared-types/b.ts': "import type { A } from './a.ts';\nexport type B = { a?: A };",
    },
  },
  { rule: 'no-orphans', says: 'a file nobody needs', files: { 'renderer/engine/x.ts': 'export const x = 1;' } },
  line('everything-resolves', 'a name misspelt', 'renderer/engine/x.ts', './idnex.ts'),
  line('everything-resolves', 'a package not installed', 'tests/engine/x.ts', 'left-out'),
];
