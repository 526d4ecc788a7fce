import { cruise, type ICruiseResult } from 'dependency-cruiser';
import { describe, expect, it } from 'vitest';
import { type Files, inFolder } from '../support/folder.ts';
import { root, trackedFiles } from '../support/tracked.ts';
import config from './dependency-cruiser.mjs';
import { faults, soundTree } from './layers.faults.ts';

const ROOMS = ['electron', 'renderer', 'shared-types', 'data', 'tests'];

async function cruiseFolder(baseDir: string): Promise<ICruiseResult> {
  const { forbidden = [], options = {} } = config;
  const { output } = await cruise(ROOMS, { ...options, baseDir, validate: true, ruleSet: { forbidden } });
  if (typeof output === 'string') throw new TypeError('dependency-cruiser gave a text instead of a result');
  return output;
}

const cruiseFiles = (files: Files) => inFolder(files, cruiseFolder);

const rulesBroken = (result: ICruiseResult) => [...new Set(result.summary.violations.map(({ rule }) => rule.name))];

describe('the layer check', () => {
  it('reads every source file of the tree, and has nothing to say about it', async () => {
    const { modules, summary } = await cruiseFolder(root);
    expect(summary.violations.map(({ rule, from, to }) => `${rule.name}: ${from} → ${to}`)).toEqual([]);
    const read = new Set(modules.map(({ source }) => source));
    const sources = trackedFiles().filter((path) => /\.tsx?$/.test(path));
    expect(sources.length).toBeGreaterThan(0);
    expect(sources.filter((path) => !read.has(path))).toEqual([]);
  });

  it('finds nothing to say about a sound tree', async () => {
    const result = await cruiseFiles(soundTree);
    expect(result.summary.violations).toEqual([]);
    expect(result.summary.totalCruised).toBeGreaterThan(Object.keys(soundTree).length / 2);
  });

  it.each(faults.map((fault) => ({ title: `${fault.rule}: ${fault.says}`, ...fault })))(
    'breaks exactly $title',
    async ({ rule, files }) => {
      expect(rulesBroken(await cruiseFiles({ ...soundTree, ...files }))).toEqual([rule]);
    },
  );

  it('has a planted fault for every rule, and tells where the line wanted to live', () => {
    const rules = config.forbidden ?? [];
    expect(new Set(faults.map(({ rule }) => rule))).toEqual(new Set(rules.map(({ name }) => name)));
    for (const rule of rules) expect(rule.comment, rule.name).toMatch(/\w{3,}.*\./);
    expect(rules.every(({ severity }) => severity === 'error')).toBe(true);
  });
});
