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
import { trialOf } from './reach.ts';
import { sampleOf } from './sample.ts';
import { reasonFor } from './survivors.ts';
import { engineTestFiles } from './testFiles.ts';
import type { FileSeen, Order, Outcome } from './testRuns.ts';
import { Worker } from './worker.ts';

const killedShareMin = 0.95;
/** What a mutant's tests may take beyond ten times their usual time; a worker that starts anew is in it. */
const graceMs = 30_000;
const unmutatedLimitMs = 300_000;

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

/** Does `task` for each of `list`, as many at once as there are workers. */
async function shareOut<T>(
  workers: readonly Worker[],
  list: readonly T[],
  task: (worker: Worker, one: T) => Promise<void>,
) {
  const left = [...list];
  const work = async (worker: Worker) => {
    for (let one = left.shift(); one !== undefined; one = left.shift()) await task(worker, one);
  };
  await Promise.all(workers.map(work));
}

/** Every test file with no mutant on; those that fail then say nothing about mutants and are left out. */
async function unmutated(workers: readonly Worker[], paths: readonly string[]): Promise<FileSeen[]> {
  const seen: FileSeen[] = [];
  await shareOut(workers, paths, async (worker, path) => {
    const order: Order = { mutant: -1, limit: 0, files: [{ path, tests: null }] };
    const outcome = await worker.carryOut(order, unmutatedLimitMs);
    const [file] = outcome?.files ?? [];
    if (file === undefined || file.failed) say(`left out, fails without a mutant: ${path} ${file?.reason ?? ''}`);
    else seen.push(file);
  });
  return seen;
}

function killer(outcome: Outcome | null): string | null {
  if (outcome === null) return 'time';
  const failed = outcome.files.find((file) => file.failed);
  if (failed !== undefined) return `${failed.path}: ${failed.reason}`;
  return outcome.fault === '' ? null : outcome.fault;
}

async function judged(workers: readonly Worker[], mutants: readonly Numbered[], seen: readonly FileSeen[]) {
  const verdicts: Verdict[] = [];
  await shareOut(workers, mutants, async (worker, mutant) => {
    const { order, expectedMs } = trialOf(mutant.id, seen);
    const outcome = order.files.length === 0 ? null : await worker.carryOut(order, graceMs + 10 * expectedMs);
    const killedBy = order.files.length === 0 ? null : killer(outcome);
    verdicts.push({ mutant, killedBy });
    if (values.verbose) say(`${killedBy === null ? 'SURVIVED' : 'killed'}  ${told(mutant)}  ${killedBy ?? ''}`);
  });
  return verdicts;
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

async function run(copy: string): Promise<boolean> {
  const startedMs = performance.now();
  const elapsedS = () => Math.round((performance.now() - startedMs) / 1000);
  const all = [...engineMutations(copy)].filter(([file]) => isAskedFor(file, values.only));
  const chosen = sampleOf(new Map(all), Number(values.count), Number(values.seed));
  const mutants = chosen.map((mutation, id) => ({ ...mutation, id }));
  const total = all.reduce((sum, [, of]) => sum + of.length, 0);
  say(`seed ${values.seed}: ${mutants.length} of ${total} mutants in ${all.length} files`);
  const list = join(copy, 'mutants.json');
  writeFileSync(list, JSON.stringify(mutants));
  const workers = Array.from({ length: Number(values.workers) }, () => new Worker(copy, list));
  try {
    const seen = await unmutated(
      workers,
      engineTestFiles(copy).filter((file) => isAskedFor(file, values.tests)),
    );
    say(`${seen.length} test files pass without a mutant, after ${elapsedS()} s`);
    if (values.verbose)
      for (const { path, durationMs } of seen) say(`${String(Math.round(durationMs)).padStart(7)} ms  ${path}`);
    const verdicts = await judged(workers, mutants, seen);
    report(verdicts);
    const killed = verdicts.filter(({ killedBy }) => killedBy !== null).length;
    const share = killed / verdicts.length;
    say(
      `${killed} of ${verdicts.length} killed (${Math.floor(1000 * share) / 10} %), seed ${values.seed}, ${elapsedS()} s`,
    );
    return share >= killedShareMin;
  } finally {
    for (const worker of workers) worker.stop();
  }
}

async function main(): Promise<void> {
  const copy = copyOfTree(root);
  const remove = () => rmSync(copy, { recursive: true, force: true });
  for (const signal of ['SIGINT', 'SIGTERM'] as const)
    process.on(signal, () => {
      remove();
      process.exit(130);
    });
  try {
    process.exitCode = (await run(copy)) ? 0 : 1;
  } finally {
    remove();
  }
}

void main();
