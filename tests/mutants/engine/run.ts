/**
 * `npx tsx tests/mutants/engine/run.ts [--seed N] [--count N] [--only PATH]… [--tests PATH]… [--workers N] [--verbose]`: a
 * sample of the engine's mutants, each with the tests that come by it. Ends with 1 where fewer than 95 of 100 are killed.
 */
import { rmSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { dirname, join } from 'node:path';
import { parseArgs } from 'node:util';
import { root } from '../../support/tracked.ts';
import { copyOfTree } from './copyOfTree.ts';
import { engineMutations } from './engineSources.ts';
import type { Numbered } from './instrument.ts';
import { changeOf } from './mutations.ts';
import { shareOut, tryAlone, tryInFile, type Killers } from './judging.ts';
import { none } from './reach.ts';
import { sampleOf } from './sample.ts';
import { reasonFor } from './survivors.ts';
import { engineTestFiles } from './testFiles.ts';
import type { FileSeen, Order } from './testRuns.ts';
import { Worker } from './worker.ts';

const killedShareMin = 0.95;
/** A test file that takes longer without any mutant is left out: many mutants would wait for it. */
const unmutatedLimitMs = 60_000;

const say = (text: string): void => void process.stdout.write(`${text}\n`);

const { values } = parseArgs({
  options: {
    seed: { type: 'string', default: '1' },
    count: { type: 'string', default: '600' },
    only: { type: 'string', multiple: true, default: [] },
    tests: { type: 'string', multiple: true, default: [] },
    workers: { type: 'string', default: String(Math.min(2, availableParallelism())) },
    verbose: { type: 'boolean', default: false },
  },
});

const isAskedFor = (file: string, paths: readonly string[]): boolean =>
  paths.length === 0 || paths.some((path) => file.includes(path));

interface Verdict {
  mutant: Numbered;
  /** By what: a test and what it said; null where every test passed. */
  killedBy: string | null;
}

/** Every test file with no mutant on; those that fail then say nothing about mutants and are left out. */
async function unmutated(workers: readonly Worker[], paths: readonly string[]): Promise<FileSeen[]> {
  const seen: FileSeen[] = [];
  await shareOut(workers, paths, async (worker, path) => {
    const order: Order = { on: none, files: [{ path, tests: null }] };
    const outcome = await worker.carryOut(order, unmutatedLimitMs);
    if (outcome === null) return say(`left out, takes too long: ${path}`);
    const [file] = outcome.files;
    if (file === undefined || file.failed)
      return say(`left out, fails without a mutant: ${path} ${file?.reason ?? ''}`);
    if (values.verbose) say(`${String(Math.round(file.durationMs)).padStart(7)} ms  ${path}`);
    seen.push(file);
  });
  return seen;
}

/** First all mutants of a test file in one go, then each that is left by itself. */
async function judged(
  workers: readonly Worker[],
  mutants: readonly Numbered[],
  seen: readonly FileSeen[],
  folder: string,
): Promise<Verdict[]> {
  const killers: Killers = new Map();
  const alive = () => mutants.map(({ id }) => id).filter((id) => !killers.has(id));
  const tell = (id: number) => {
    const mutant = mutants[id];
    const by = killers.get(id);
    if (values.verbose && mutant !== undefined)
      say(`${by === undefined ? 'SURVIVED' : 'killed'}  ${told(mutant)}  ${by ?? ''}`);
  };
  const quickestFirst = seen.toSorted((a, b) => a.durationMs - b.durationMs);
  await shareOut(workers, quickestFirst, async (worker, file) => {
    const log = join(folder, `trials-${seen.indexOf(file)}.log`);
    for (const [id, by] of await tryInFile(worker, file, alive, log)) {
      killers.set(id, by);
      tell(id);
    }
  });
  say(`${killers.size} killed file by file, ${alive().length} to be tried alone`);
  if (values.verbose) for (const mutant of mutants) if (!killers.has(mutant.id)) say(`alive  ${told(mutant)}`);
  await shareOut(workers, alive(), async (worker, id) => {
    const by = await tryAlone(worker, id, seen);
    if (by !== null) killers.set(id, by);
    tell(id);
  });
  return mutants.map((mutant) => ({ mutant, killedBy: killers.get(mutant.id) ?? null }));
}

const told = (mutant: Numbered): string => `${mutant.file}:${mutant.line}  ${changeOf(mutant)}`;

/** Killed of all, folder by folder, and who survived. */
function report(verdicts: readonly Verdict[]): void {
  const folders = [...new Set(verdicts.map(({ mutant }) => dirname(mutant.file)))].toSorted();
  for (const folder of folders) {
    const of = verdicts.filter(({ mutant }) => dirname(mutant.file) === folder);
    say(`${folder}: ${of.filter(({ killedBy }) => killedBy !== null).length} of ${of.length} killed`);
  }
  const survived = verdicts.filter(({ killedBy }) => killedBy === null).map(({ mutant }) => mutant);
  for (const mutant of survived.toSorted((a, b) => a.id - b.id))
    say(`SURVIVED  ${told(mutant)}\n          ${reasonFor(mutant) ?? 'no reason is given'}`);
}

async function run(copy: string, workers: Worker[]): Promise<boolean> {
  const startedMs = performance.now();
  const elapsedS = () => Math.round((performance.now() - startedMs) / 1000);
  const all = [...engineMutations(copy)].filter(([file]) => isAskedFor(file, values.only));
  const chosen = sampleOf(new Map(all), Number(values.count), Number(values.seed));
  const mutants = chosen.map((mutation, id) => ({ ...mutation, id }));
  const total = all.reduce((sum, [, of]) => sum + of.length, 0);
  say(`seed ${values.seed}: ${mutants.length} of ${total} mutants in ${all.length} files`);
  const list = join(copy, 'mutants.json');
  writeFileSync(list, JSON.stringify(mutants));
  for (let count = Number(values.workers); count > 0; count -= 1) workers.push(new Worker(copy, list));
  const seen = await unmutated(
    workers,
    engineTestFiles(copy).filter((file) => isAskedFor(file, values.tests)),
  );
  say(`${seen.length} test files pass without a mutant, after ${elapsedS()} s`);
  const verdicts = await judged(workers, mutants, seen, copy);
  report(verdicts);
  const killed = verdicts.filter(({ killedBy }) => killedBy !== null).length;
  const share = killed / verdicts.length;
  say(
    `${killed} of ${verdicts.length} killed (${Math.floor(1000 * share) / 10} %), seed ${values.seed}, ${elapsedS()} s`,
  );
  return share >= killedShareMin;
}

async function main(): Promise<void> {
  const copy = copyOfTree(root);
  const workers: Worker[] = [];
  const remove = () => {
    // A worker that still ran would write into the folder while it is taken away.
    for (const worker of workers) worker.stop();
    rmSync(copy, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  };
  for (const signal of ['SIGINT', 'SIGTERM'] as const)
    process.on(signal, () => {
      remove();
      process.exit(130);
    });
  try {
    process.exitCode = (await run(copy, workers)) ? 0 : 1;
  } finally {
    remove();
  }
}

void main();
