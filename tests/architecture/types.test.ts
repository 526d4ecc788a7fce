import { join } from 'node:path';
import ts from 'typescript';
import { beforeAll, describe, expect, it } from 'vitest';
import { inFolder } from '../support/folder.ts';
import { root } from '../support/tracked.ts';

/** What, the file it is planted in, its source, the complaint of the compiler. */
const faults: readonly (readonly [what: string, file: string, source: string, complaint: RegExp])[] = [
  ['the page', 'page.ts', 'export const title = document.title;', /TS2\d+: Cannot find name 'document'/],
  ['a log', 'log.ts', "console.log('here');\nexport const one = 1;", /TS2\d+: Cannot find name 'console'/],
  ['a timer', 'timer.ts', 'setTimeout(() => {}, 10);\nexport const one = 1;', /TS2\d+: Cannot find name 'setTimeout'/],
  ['Node', 'node.ts', 'export const folder = process.cwd();', /TS2\d+: Cannot find name 'process'/],
  ['a module of Node', 'disk.ts', "export { readFileSync } from 'node:fs';", /TS2\d+: .*'node:fs'/],
  ['an entry taken for there', 'entry.ts', 'export const first = (list: number[]): number => list[0];', /TS2322/],
  [
    'an absent field set to undefined',
    'absent.ts',
    'export const tool: { maxNm?: number } = { maxNm: undefined };',
    /TS2375/,
  ],
  ['an enum', 'enum.ts', 'export enum Drive {\n  Half,\n}', /TS1294/],
];

const sound = 'export const half = (list: readonly number[]): number => (list[0] ?? 0) / 2;';

/** What the compiler says of the files of a folder with settings of its own, and of the settings, as `tsc` words it. */
function complaintsIn(folder: string): string {
  const unreadable: ts.Diagnostic[] = [];
  const host: ts.ParseConfigFileHost = {
    ...ts.sys,
    onUnRecoverableConfigFileDiagnostic: (diagnostic) => unreadable.push(diagnostic),
  };
  const settings = ts.getParsedCommandLineOfConfigFile(join(folder, 'tsconfig.json'), {}, host);
  if (settings === undefined)
    throw new Error(`no settings: ${unreadable.map(({ messageText }) => JSON.stringify(messageText)).join(', ')}`);
  const program = ts.createProgram(settings.fileNames, settings.options);
  const within = (path: string) => {
    const start = `${path.replaceAll('\\', '/')}/`;
    return program.getSourceFiles().filter(({ fileName }) => fileName.startsWith(start));
  };
  if (within(join(root, 'renderer/engine')).length === 0) throw new Error('the engine is not compiled with them');
  const found = [
    ...settings.errors,
    ...program.getOptionsDiagnostics(),
    ...within(folder).flatMap((file) => [
      ...program.getSyntacticDiagnostics(file),
      ...program.getSemanticDiagnostics(file),
    ]),
  ];
  return ts.formatDiagnostics(found, {
    getCanonicalFileName: (name) => name,
    getCurrentDirectory: () => folder,
    getNewLine: () => '\n',
  });
}

describe('the type check of the engine', () => {
  let text = '';

  /**
   * The faults are compiled together with the engine as it stands: with its settings, and with every library it
   * imports, since a library's own types could bring the page or Node in. Only they are looked through: the stage
   * `types` looks through the engine itself.
   */
  beforeAll(async () => {
    const settings = {
      extends: join(root, 'renderer/engine/tsconfig.json'),
      include: [join(root, 'renderer/engine'), join(root, 'shared-types'), '.'],
    };
    const sources = faults.map(([, file, source]) => [file, source] as const);
    const files = { ...Object.fromEntries(sources), 'sound.ts': sound, 'tsconfig.json': JSON.stringify(settings) };
    text = await inFolder(files, complaintsIn);
  });

  const complaintsAbout = (file: string) => text.split('\n').filter((line) => line.startsWith(`${file}(`));

  it.each(faults)('refuses %s', (_what, file, _source, complaint) => {
    expect(complaintsAbout(file).join('\n')).toMatch(complaint);
  });

  it('lets plain code be', () => {
    expect(complaintsAbout('sound.ts')).toEqual([]);
  });
});
