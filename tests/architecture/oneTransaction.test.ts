/** Nothing is read before a write outside the write's transaction: acceptance line R13. */
import { join, relative } from 'node:path';
import ts from 'typescript';
import { beforeAll, expect, it } from 'vitest';
import { root, trackedFiles } from '../support/tracked.ts';
import { unsafeWrites } from './oneTransaction.ts';
import type { WriteFound } from './oneTransaction.ts';

const rules = {
  mayWrite: new Set(
    ['copy/applyEntries.ts', 'copy/arrivals.ts', 'opening/opening.ts', 'recovery/adopt.ts', 'recovery/rebuild.ts'].map(
      (file) => `renderer/store/${file}`,
    ),
  ),
  // A database that is being made, or whose window is not open yet: nobody else writes it, and nothing of it is read before.
  alone: new Set([
    'renderer/store/recovery/adopt.ts adopt',
    'renderer/store/recovery/rebuild.ts rebuild',
    'renderer/store/recovery/rebuild.ts fill',
  ]),
};

/** Faults planted beside the store, and what is found of each; null where it is as it should be. */
const planted: Record<string, { source: string; found: RegExp | null }> = {
  counts: {
    source: `export async function count(copy: WorkingCopy) {
      const head = await copy.meta().get('head');
      await copy.transaction('rw', 'meta', async () => { if (head) await copy.meta().put({ ...head, seq: head.seq + 1 }); });
    }`,
    found: /read outside its transaction/,
  },
  countsByHelp: {
    source: `const headOf = (copy: WorkingCopy) => copy.meta().get('head');
    export async function count(copy: WorkingCopy) {
      const head = await headOf(copy);
      await copy.transaction('rw', 'meta', async () => { if (head) await copy.meta().put(head); });
    }`,
    found: /read outside its transaction/,
  },
  readsApart: {
    source: `export async function count(copy: WorkingCopy) {
      const head = await copy.transaction('r', 'meta', () => copy.meta().get('head'));
      await copy.transaction('rw', 'meta', async () => { if (head) await copy.meta().put(head); });
    }`,
    found: /read outside its transaction/,
  },
  bare: {
    source: `export async function drop(copy: WorkingCopy) { await copy.arrivals().clear(); }`,
    found: /outside a transaction/,
  },
  readOnly: {
    source: `export const drop = (copy: WorkingCopy) => copy.transaction('r', 'meta', () => copy.meta().delete('head'));`,
    found: /outside a transaction/,
  },
  byVariable: {
    source: `export async function drop(copy: WorkingCopy) { const rows = copy.records('items'); await rows.where('id').equals('a').modify({ rev: 2 }); }`,
    found: /outside a transaction/,
  },
  halfOfItsCallers: {
    source: `async function take(copy: WorkingCopy) { await copy.meta().delete('head'); }
    export const one = (copy: WorkingCopy) => copy.transaction('rw', 'meta', async () => { await take(copy); });
    export const other = (copy: WorkingCopy) => take(copy);`,
    found: /outside a transaction/,
  },
  elsewhere: {
    source: `export const drop = (copy: WorkingCopy) => copy.transaction('rw', 'meta', () => copy.meta().delete('head'));`,
    found: /this file may not write/,
  },
  asItShouldBe: {
    source: `async function take(copy: WorkingCopy) { await copy.meta().put({ key: 'head', seq: 1, hash: '' }); }
    export const count = (copy: WorkingCopy) => copy.transaction('rw', 'meta', async () => {
      if ((await copy.meta().get('head')) !== undefined) await take(copy);
    });`,
    found: null,
  },
};
const pathOf = (name: string): string => join(root, 'renderer/store/copy', `planted-${name}.ts`);

let found: WriteFound;
beforeAll(() => {
  const configured = ts.readConfigFile(join(root, 'renderer/tsconfig.json'), (path) => ts.sys.readFile(path));
  const { options } = ts.parseJsonConfigFileContent(configured.config, ts.sys, join(root, 'renderer'));
  options.types = [];
  const host = ts.createCompilerHost(options);
  // The store and Dexie are enough to tell a table from anything else; all other types would take half a minute.
  host.resolveModuleNameLiterals = (literals, from) =>
    literals.map(({ text }) => {
      const { resolvedModule } = ts.resolveModuleName(text, from, options, host);
      const path = resolvedModule?.resolvedFileName ?? '';
      return { resolvedModule: /\/renderer\/store\/|\/node_modules\/dexie\//.test(path) ? resolvedModule : undefined };
    });
  const sources = new Map(
    Object.entries(planted).map(([name, { source }]) => [
      pathOf(name),
      `import type { WorkingCopy } from './workingCopy.ts';\n${source}`,
    ]),
  );
  const [read, exists] = [host.readFile.bind(host), host.fileExists.bind(host)];
  host.readFile = (path) => sources.get(path) ?? read(path);
  host.fileExists = (path) => sources.has(path) || exists(path);
  const own = trackedFiles().filter((path) => /^renderer\/store\/.*\.ts$/.test(path));
  const program = ts.createProgram([...own.map((path) => join(root, path)), ...sources.keys()], options, host);
  found = unsafeWrites(program, root, {
    ...rules,
    mayWrite: new Set([
      ...rules.mayWrite,
      ...Object.keys(planted).flatMap((name) => (name === 'elsewhere' ? [] : [relative(root, pathOf(name))])),
    ]),
  });
}, 120_000);

const ofPlanted = (name: string): string[] => found.faults.filter((fault) => fault.includes(`/planted-${name}.ts `));

it('writes the working copy in one transaction with all that is read for it, in the files that may', () => {
  expect(found.faults.filter((fault) => !fault.includes('/planted-'))).toEqual([]);
  const own = new Set(found.writes.filter((one) => !one.includes('/planted-')));
  expect(new Set([...own].map((one) => one.split(' ')[0]))).toEqual(rules.mayWrite);
  for (const one of rules.alone) expect(own).toContain(one);
});

it.each(Object.entries(planted))('finds what is planted: %s', (name, { found: wanted }) => {
  expect(found.writes.some((one) => one.includes(`/planted-${name}.ts `))).toBe(true);
  if (wanted === null) expect(ofPlanted(name)).toEqual([]);
  else expect(ofPlanted(name).join('\n')).toMatch(wanted);
});

it('has no working copy in hand outside the store', () => {
  const outside = trackedFiles().filter((path) => /^renderer\/(?!store\/).*\.tsx?$/.test(path));
  expect(outside.length).toBeGreaterThan(300);
  const names = /['"][^'"]*\/copy\/workingCopy\.ts['"]|from 'dexie'/;
  expect(outside.filter((path) => names.test(ts.sys.readFile(join(root, path)) ?? ''))).toEqual([]);
});
