import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type Files, inFolder } from '../support/folder.ts';
import { runBin } from '../support/installed.ts';
import { root } from '../support/tracked.ts';

const configPath = 'tests/architecture/knip.json';

const packageJson = JSON.stringify({
  name: 'tree',
  type: 'module',
  scripts: { start: 'node electron/launch/start.ts' },
});

/** A tree in which every file is reached from an entry, and every export used. */
const soundTree: Files = {
  'package.json': packageJson,
  [configPath]: readFileSync(join(root, configPath), 'utf8'),
  'shared-types/plan.ts': 'export interface Plan {\n  id: string;\n}',
  'renderer/main.tsx': "import type { Plan } from '../shared-types/plan.ts';\nlet plan: Plan;",
  'electron/launch/start.ts': "import { port } from './port.ts';\nport;",
  'electron/launch/port.ts': 'export const port = 47811;',
};

const unused = (files: Files) =>
  inFolder({ ...soundTree, ...files }, (folder) =>
    runBin('knip', ['--config', configPath, '--no-progress', '--no-config-hints'], folder),
  );

describe('the check for unused code', () => {
  it('finds nothing in a tree where everything is used', async () => {
    expect(await unused({})).toEqual({ code: 0, text: '' });
  });

  it('reports an export nobody imports', async () => {
    const port = 'export const port = 47811;\nexport const spare = 47812;';
    const { code, text } = await unused({ 'electron/launch/port.ts': port });
    expect(text).toMatch(/Unused exports \(1\)\s+spare .*electron\/launch\/port\.ts/);
    expect(code).toBe(1);
  });

  it('reports a shape nobody uses', async () => {
    const { code, text } = await unused({
      'shared-types/plan.ts': 'export interface Plan {\n  id: string;\n}\nexport interface Spare {\n  id: string;\n}',
    });
    expect(text).toMatch(/Unused exported types \(1\)\s+Spare .*shared-types\/plan\.ts/);
    expect(code).toBe(1);
  });

  it('reports a file nobody reaches', async () => {
    const { code, text } = await unused({ 'renderer/engine/spare.ts': 'export const spare = 1;' });
    expect(text).toMatch(/Unused files \(1\)\s+renderer\/engine\/spare\.ts/);
    expect(code).toBe(1);
  });

  it('reports a package nobody imports', async () => {
    const spare = { ...(JSON.parse(packageJson) as object), dependencies: { spare: '1.0.0' } };
    const { code, text } = await unused({ 'package.json': JSON.stringify(spare) });
    expect(text).toMatch(/Unused dependencies \(1\)\s+spare /);
    expect(code).toBe(1);
  });

  it('reports a package that package.json does not list', async () => {
    const { code, text } = await unused({
      'electron/launch/port.ts': "import spare from 'spare';\nexport const port = spare;",
    });
    expect(text).toMatch(/Unlisted dependencies \(1\)\s+spare /);
    expect(code).toBe(1);
  });
});
