import { readFileSync, writeFileSync } from 'node:fs';
import { none, trialsInFile, wholeTrial } from './reach.ts';
import type { FileSeen, Outcome } from './testRuns.ts';
import type { Worker } from './worker.ts';

/** What killed each mutant, by its id: a test file and what a test of it said. */
export type Killers = Map<number, string>;

/** How long nothing may be heard: a worker that starts anew, and the longest test, are in it. */
const quietMs = 30_000;

/** Does `task` for each of `list`, as many at once as there are workers. */
export async function shareOut<T>(
  workers: readonly Worker[],
  list: readonly T[],
  task: (worker: Worker, one: T) => Promise<void>,
): Promise<void> {
  const left = [...list];
  const work = async (worker: Worker) => {
    for (let one = left.shift(); one !== undefined; one = left.shift()) await task(worker, one);
  };
  await Promise.all(workers.map(work));
}

/**
 * Tries all mutants that the tests of one file come by, in one reading of it. A file whose tests do not pass again after
 * their mutants says nothing.
 */
export async function tryInFile(worker: Worker, file: FileSeen, alive: () => number[], log: string): Promise<Killers> {
  const killers: Killers = new Map();
  for (;;) {
    const mutants = alive().filter((mutant) => !killers.has(mutant));
    const trials = trialsInFile(mutants, file);
    const tests = Object.keys(trials);
    if (tests.length === 0) return killers;
    writeFileSync(log, '');
    const order = { on: none, files: [{ path: file.path, tests }], trials, log };
    const outcome = await worker.carryOut(order, quietMs);
    const { killed, last } = told(readFileSync(log, 'utf8'));
    if (outcome !== null && (outcome.fault !== '' || outcome.files.some(({ failed }) => failed))) return killers;
    for (const [mutant, said] of killed) killers.set(mutant, `${file.path}: ${said}`);
    if (outcome !== null || last === null) return killers;
    killers.set(last, `${file.path}: time`);
  }
}

/** What a log says: who was killed, and who was begun with last and not ended. */
function told(log: string): { killed: [number, string][]; last: number | null } {
  const lines = log.split('\n').slice(0, -1);
  const killed = lines.flatMap((line): [number, string][] => {
    const [, id, said = ''] = /^-(\d+) (.*)$/.exec(line) ?? [];
    return id === undefined ? [] : [[Number(id), said]];
  });
  const last = /^\+(\d+)$/.exec(lines.at(-1) ?? '')?.[1];
  return { killed, last: last === undefined ? null : Number(last) };
}

/** What kills one mutant that is on from the beginning; null where every test that comes by it passes. */
export async function tryAlone(worker: Worker, mutant: number, seen: readonly FileSeen[]): Promise<string | null> {
  const { order, expectedMs } = wholeTrial(mutant, seen);
  if (order.files.length === 0) return null;
  return killer(await worker.carryOut(order, quietMs + 10 * expectedMs));
}

function killer(outcome: Outcome | null): string | null {
  if (outcome === null) return 'time';
  const failed = outcome.files.find((file) => file.failed);
  if (failed !== undefined) return `${failed.path}: ${failed.reason}`;
  return outcome.fault === '' ? null : outcome.fault;
}
