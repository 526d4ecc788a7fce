/**
 * Stands in the realm of the tests, before each test file: the switch that every mutant stands behind. It says whether a
 * mutant is on, counts which ones a test comes by, and ends a mutant that goes round for ever. A test that passes can be
 * run again at once with one mutant after the other.
 */
import { appendFileSync } from 'node:fs';
import { afterEach, beforeAll, beforeEach, inject, type TestContext } from 'vitest';
import { getFn, setFn } from 'vitest/suite';
import fc from 'fast-check';
import { switchName } from './instrument.ts';

/** A mutant to be on, and how often it may be come by before it counts as going round for ever. */
export interface On {
  mutant: number;
  limit: number;
}

export interface Switched {
  /** How many mutants there are. */
  mutants: number;
  /** On from the beginning, while the files are read too; -1 for none. */
  on: On;
  /** Those to be tried in each test once it has passed, by the test's id. */
  trials: Readonly<Record<string, readonly On[]>>;
  /** Where a trial is told: `+7` when 7 is begun with, `-7 what the test said` when it is killed. */
  log: string;
}

/** What each test tells of the mutants it came by: id and how often. */
export interface Reached {
  /** In the test itself. */
  inTest: [number, number][];
  /** Before it: while the file was read, or in what is done beforehand for several tests. */
  before: [number, number][];
}

declare module 'vitest' {
  interface ProvidedContext {
    switched: Switched;
  }
  interface TaskMeta {
    reached?: Reached;
  }
}

const { mutants, on, trials, log } = inject('switched');
const off: On = { mutant: -1, limit: 0 };
const counts = new Uint32Array(mutants);
const killed = new Set<number>();
let now = on;

function isOn(id: number): boolean {
  const count = (counts[id] ?? 0) + 1;
  counts[id] = count;
  if (id !== now.mutant) return false;
  if (count > now.limit) throw new Error(`mutant ${id} was come by ${count} times`);
  return true;
}
Object.assign(globalThis, { [switchName]: isOn });

/** The same examples at every run: a mutant is killed or not, whatever the day. One that fails is enough. */
fc.configureGlobal({ seed: 20_260_101, endOnFailure: true });

function taken(): [number, number][] {
  const all = [...counts.entries()].filter(([, count]) => count > 0);
  counts.fill(0);
  return all;
}

async function tryOne(one: On, test: () => unknown): Promise<void> {
  appendFileSync(log, `+${one.mutant}\n`);
  counts.fill(0);
  now = one;
  try {
    await test();
  } catch (error) {
    killed.add(one.mutant);
    appendFileSync(log, `-${one.mutant} ${String(error).split('\n', 1)[0] ?? ''}\n`);
  } finally {
    now = off;
  }
}

function tryMutants(task: TestContext['task'], due: readonly On[]): void {
  const test = getFn(task);
  setFn(task, async () => {
    await test();
    for (const one of due) if (!killed.has(one.mutant)) await tryOne(one, test);
    // Whatever a mutant left behind would be laid to the next one's charge.
    await test();
  });
}

let before: [number, number][] = [];
beforeAll(() => {
  before = taken();
});
beforeEach(({ task }) => {
  before = [...before, ...taken()];
  const due = trials[task.id];
  if (due !== undefined) tryMutants(task, due);
});
afterEach(({ task }) => {
  task.meta.reached = { inTest: taken(), before };
  before = [];
});
