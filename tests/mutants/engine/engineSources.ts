import { readdirSync, readFileSync } from 'node:fs';
import { join, sep } from 'node:path';
import ts from 'typescript';
import { mutationsOf, type Mutation } from './mutations.ts';

const engine = join('renderer', 'engine');

/** The engine's files that hold code, by their path from the root of the tree. */
function engineFiles(root: string): string[] {
  return readdirSync(join(root, engine), { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.ts') && !path.endsWith('.d.ts'))
    .map((path) => join(engine, path).split(sep).join('/'))
    .toSorted();
}

/** Every mutation of the engine under `root`, file by file. */
export function engineMutations(root: string): Map<string, Mutation[]> {
  const configPath = join(root, engine, 'tsconfig.json');
  const config = ts.getParsedCommandLineOfConfigFile(configPath, {}, {
    ...ts.sys,
    onUnRecoverableConfigFileDiagnostic: (fault) => {
      throw new Error(ts.flattenDiagnosticMessageText(fault.messageText, '\n'));
    },
  } as ts.ParseConfigFileHost);
  const program = ts.createProgram(config?.fileNames ?? [], config?.options ?? {});
  const checker = program.getTypeChecker();
  const numeric = ts.TypeFlags.NumberLike | ts.TypeFlags.BigIntLike;
  const addsNumbers = (sum: ts.BinaryExpression) => (checker.getTypeAtLocation(sum).flags & numeric) !== 0;
  const mutations = new Map<string, Mutation[]>();
  for (const file of engineFiles(root)) {
    const source = program.getSourceFile(join(root, file));
    if (source === undefined) throw new Error(`${file} is not among the engine's files for the compiler`);
    mutations.set(file, mutationsOf(source, file, addsNumbers));
  }
  return mutations;
}

/** The mutations of one file that are told without the type checker: all but those of `+`. */
export function untypedMutations(root: string, file: string): Mutation[] {
  const text = readFileSync(join(root, file), 'utf8');
  return mutationsOf(ts.createSourceFile(file, text, ts.ScriptTarget.ES2023, true), file, () => true);
}
