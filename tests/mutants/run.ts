/**
 * `npx tsx tests/mutants/run.ts`, or with parts of names for some only. In a copy of the tree each pivotal line is taken
 * out by itself, and the one test that should miss it is run: `killed` where it fails. Ends with 1 where one survived.
 */
import {
  copyFileSync,
  linkSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  readlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { runNode, stopAll, type Ended } from '../support/command.ts';
import { root } from '../support/tracked.ts';
import { mutants, type Mutant } from './list.ts';

const limitS = 300;
const say = (text: string): void => void process.stdout.write(`${text}\n`);

/** What a run of the tests needs; results of builds are not among it. */
const rooms = [
  'data',
  'electron',
  'renderer',
  'shared-types',
  'tests',
  'package.json',
  'tsconfig.json',
  'node_modules',
];
/** Where Vite keeps what it has prepared for this tree alone. */
const leftOut = new Set(['.vite', '.vite-temp'].map((name) => join(root, 'node_modules', name)));

/** Packages are linked, not copied: nothing writes into them. Our own files are copied, because mutants do. */
function copyTree(from: string, to: string, own: boolean): void {
  mkdirSync(to, { recursive: true });
  for (const entry of readdirSync(from, { withFileTypes: true })) {
    const [source, target] = [join(from, entry.name), join(to, entry.name)];
    if (leftOut.has(source)) continue;
    if (entry.isSymbolicLink()) symlinkSync(readlinkSync(source), target);
    else if (entry.isDirectory()) copyTree(source, target, own);
    else if (own) copyFileSync(source, target);
    else linkOrCopy(source, target);
  }
}

/** Links do not reach from one file system into another. */
function linkOrCopy(source: string, target: string): void {
  try {
    linkSync(source, target);
  } catch {
    copyFileSync(source, target);
  }
}

function copyOfTree(): string {
  const copy = mkdtempSync(join(tmpdir(), 'bagwright-mutants-'));
  for (const room of rooms) {
    const [source, target] = [join(root, room), join(copy, room)];
    if (room.includes('.')) copyFileSync(source, target);
    else copyTree(source, target, room !== 'node_modules');
  }
  return copy;
}

function runTest(copy: string, { project, file, name }: Mutant['test']): Promise<Ended> {
  const vitest = join(copy, 'node_modules', 'vitest', 'vitest.mjs');
  const filter = name === '' ? [] : ['-t', name.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&')];
  const config = join(copy, 'tests', 'vitest.config.ts');
  return runNode([vitest, '--config', config, 'run', '--project', project, file, ...filter], limitS);
}

/** How many tests ended in each way, as the runner counts them; null where it did not come to that. */
function counted({ text }: Ended): { failed: number; passed: number } | null {
  const line = /^ *Tests +(.*)$/m.exec(text)?.[1];
  if (line === undefined) return null;
  const of = (word: string): number => Number(new RegExp(`(\\d+) ${word}`).exec(line)?.[1] ?? 0);
  return { failed: of('failed'), passed: of('passed') };
}

async function judge(copy: string, mutant: Mutant): Promise<'killed' | 'SURVIVED' | 'NOT RUN'> {
  const path = join(copy, mutant.file);
  const whole = readFileSync(path, 'utf8');
  if (whole.split(mutant.text).length !== 2) return 'NOT RUN';
  writeFileSync(
    path,
    whole.replace(mutant.text, () => mutant.instead),
  );
  try {
    const ended = await runTest(copy, mutant.test);
    const counts = counted(ended);
    // A test that hangs because of the mutant misses the line too; one that could not be run says nothing.
    if (ended.outOfTime || (counts?.failed ?? 0) > 0) return 'killed';
    return (counts?.passed ?? 0) > 0 ? 'SURVIVED' : 'NOT RUN';
  } finally {
    writeFileSync(path, whole);
  }
}

/** Without any change each of the tests passes: else it would miss nothing. */
async function sound(copy: string, chosen: readonly Mutant[]): Promise<Set<string>> {
  const failing = new Set<string>();
  const tests = new Map(chosen.map(({ test }) => [JSON.stringify(test), test]));
  for (const [key, test] of tests) {
    const counts = counted(await runTest(copy, test));
    if (counts === null || counts.failed > 0 || counts.passed === 0) failing.add(key);
  }
  return failing;
}

async function run(words: readonly string[]): Promise<boolean> {
  const chosen = mutants.filter(({ name }) => words.length === 0 || words.some((word) => name.includes(word)));
  const copy = copyOfTree();
  let killed = 0;
  try {
    const failing = await sound(copy, chosen);
    for (const mutant of chosen) {
      const failsAnyway = failing.has(JSON.stringify(mutant.test));
      const verdict = failsAnyway ? 'NOT RUN: its test fails without it' : await judge(copy, mutant);
      if (verdict === 'killed') killed += 1;
      say(`${verdict}  ${mutant.name}  (${mutant.file}; ${mutant.test.file} ${mutant.test.name})`);
    }
  } finally {
    rmSync(copy, { recursive: true, force: true });
  }
  say(`${killed} of ${chosen.length} killed`);
  return killed === chosen.length;
}

for (const signal of ['SIGINT', 'SIGTERM'] as const)
  process.on(signal, () => {
    stopAll();
    process.exit(130);
  });
process.exitCode = (await run(process.argv.slice(2))) ? 0 : 1;
