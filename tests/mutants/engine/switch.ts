/**
 * Stands in the realm of the tests, before each test file: the switch that every mutant stands behind. It says whether a
 * mutant is on, counts which ones a test comes by, and ends a mutant that goes round for ever.
 */
import { afterEach, beforeAll, beforeEach, inject } from 'vitest';
import fc from 'fast-check';
import { switchName } from './instrument.ts';

export interface Switched {
  /** How many mutants there are. */
  mutants: number;
  /** The mutant that is on; -1 for none. */
  mutant: number;
  /** How often it may be come by before it counts as going round for ever. */
  limit: number;
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

const { mutant, limit, mutants } = inject('switched');
const counts = new Uint32Array(mutants);

function isOn(id: number): boolean {
  const count = (counts[id] ?? 0) + 1;
  counts[id] = count;
  if (id !== mutant) return false;
  if (count > limit) throw new Error(`mutant ${id} was come by ${count} times`);
  return true;
}
Object.assign(globalThis, { [switchName]: isOn });

/** The same examples at every run: a mutant is killed or not, whatever the day. */
fc.configureGlobal({ seed: 20_260_101 });

function taken(): [number, number][] {
  const all = [...counts.entries()].filter(([, count]) => count > 0);
  counts.fill(0);
  return all;
}

let before: [number, number][] = [];
beforeAll(() => {
  before = taken();
});
beforeEach(() => {
  before = [...before, ...taken()];
});
afterEach(({ task }) => {
  task.meta.reached = { inTest: taken(), before };
  before = [];
});
