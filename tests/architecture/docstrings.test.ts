import { dirname, join } from 'node:path';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { root } from '../support/tracked.ts';
import { docstringFaults } from './docstrings.ts';

const engine = join(root, 'renderer/engine');

it('every exported function of the engine says what it is owed', () => {
  const config = join(engine, 'tsconfig.json');
  const read = ts.readConfigFile(config, (path) => ts.sys.readFile(path));
  const { fileNames, options } = ts.parseJsonConfigFileContent(read.config, ts.sys, dirname(config));
  const program = ts.createProgram(fileNames, options);
  expect(program.getSourceFiles().filter(({ fileName }) => fileName.startsWith(engine)).length).toBeGreaterThan(80);
  expect(docstringFaults(program, engine)).toEqual([]);
});

/** Faults of one invented file of the engine, alone in its program. */
function faultsOf(file: string, text: string, index?: string): string[] {
  const files = new Map([[`/engine/${file}`, text]]);
  if (index !== undefined) files.set(`/engine/${dirname(file)}/index.ts`, index);
  const host: ts.CompilerHost = {
    fileExists: (path) => files.has(path),
    readFile: (path) => files.get(path),
    getSourceFile: (path, version) => {
      const held = files.get(path);
      return held === undefined ? undefined : ts.createSourceFile(path, held, version, true);
    },
    getDefaultLibFileName: () => '/none.d.ts',
    writeFile: () => undefined,
    getCurrentDirectory: () => '/',
    getCanonicalFileName: (path) => path,
    useCaseSensitiveFileNames: () => true,
    getNewLine: () => '\n',
  };
  const options = { noLib: true, types: [], allowImportingTsExtensions: true, noEmit: true };
  const program = ts.createProgram([...files.keys()], options, host);
  return docstringFaults(program, '/engine').map((fault) => fault.replace(`${file} `, ''));
}

const whole = `
/**
 * Pull of a screw.
 *
 *   F = T / (K·D)
 *
 * @param x.torqueNm - T, seating torque [N·m], > 0
 * @param x.nutFactor - K, 0 to 1
 * @returns F [N]
 * @throws RefusedError out-of-range
 * @source invented
 * @validity invented
 * @example pullN({ torqueNm: 1, nutFactor: 0.2 }) // 5
 */
export function pullN(x: { torqueNm: number; nutFactor?: number }): number {
  if (x.torqueNm <= 0) throw 0;
  return x.torqueNm / (x.nutFactor ?? 1);
}
`;

describe('the check finds what is missing', () => {
  it('nothing of a whole docstring', () => {
    expect(faultsOf('pull/pull.ts', whole)).toEqual([]);
  });

  it.each<[string, RegExp, string, string[]]>([
    ['the comment', /\/\*\*[\s\S]*?\*\//, '', ['pullN: no docstring']],
    ['the first words', / \* Pull of[\s\S]*?\(K·D\)\n/, '', ['pullN: no summary']],
    ['@returns', / \* @returns.*\n/, '', ['pullN: no @returns']],
    ['@source', / \* @source.*\n/, '', ['pullN: no @source']],
    ['what @source says', /@source.*/, '@source', ['pullN: no @source']],
    ['@validity', / \* @validity.*\n/, '', ['pullN: no @validity']],
    ['@example', / \* @example.*\n/, '', ['pullN: no @example']],
    [
      '@throws of what throws',
      / \* @throws.*\n/,
      '',
      ['pullN: throws, and has no @throws', 'pullN: no @throws, nor a word that nothing is thrown'],
    ],
    ['truth', /@throws.*/, '@throws nothing', ['pullN: throws, and says that nothing is thrown']],
    ['a parameter', / \* @param x\.torqueNm.*\n/, '', ['pullN: no @param torqueNm']],
    ['the unit', / \[N·m\]/, '', ['pullN: no unit in brackets for torqueNm']],
    ['the range of what has no unit', /, 0 to 1/, '', ['pullN: no unit in brackets for nutFactor']],
  ])('%s', (_, gone, instead, faults) => {
    expect(whole).toMatch(gone);
    expect(faultsOf('pull/pull.ts', whole.replace(gone, instead))).toEqual(faults);
  });

  it('in a folder with an index, what it hands out and every number owe the whole; the rest a line', () => {
    const text = `/** Seen outside. */ export function seen(): string { return ''; }
      /** Kept inside. */ export function kept(): string { return ''; }
      /** A number. */ export function count(): number { return 1; }`;
    const missing = (name: string) => [
      `${name}: no @returns`,
      `${name}: no @throws, nor a word that nothing is thrown`,
      ...['source', 'validity', 'example'].map((tag) => `${name}: no @${tag}`),
    ];
    expect(faultsOf('pull/pull.ts', text, `export { seen } from './pull.ts';`)).toEqual([
      ...missing('seen'),
      ...missing('count'),
    ]);
    expect(faultsOf('pull/pull.ts', text).filter((fault) => fault.startsWith('kept'))).toEqual(missing('kept'));
  });

  it('of what reads and arranges: a summary, what it throws, and what comes back of a longer one', () => {
    const read = 'export function read(text: string): string { if (text) throw 0; return text; }';
    expect(faultsOf('json/read.ts', read)).toEqual(['read: no docstring']);
    expect(faultsOf('json/read.ts', `/** The text. */ ${read}`)).toEqual(['read: throws, and has no @throws']);
    expect(faultsOf('json/read.ts', `/** The text.\n *\n * @throws RefusedError\n */ ${read}`)).toEqual([]);
    expect(faultsOf('json/read.ts', `/** The text.\n *\n * More of it.\n *\n * @throws all\n */ ${read}`)).toEqual([
      'read: no @returns',
    ]);
    expect(faultsOf('json/read.ts', '/** Arrow. */ export const read = () => { throw 0; };')).toEqual([
      'read: throws, and has no @throws',
    ]);
  });

  it('a name that ends in a unit owes the whole wherever it stands', () => {
    expect(faultsOf('stack/mass.ts', '/** Mass. */ export function stackMassKg(): number { return 1; }')).toHaveLength(
      5,
    );
  });
});
