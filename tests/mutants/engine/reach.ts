import type { FileSeen, Order, TestSeen } from './testRuns.ts';
import type { On } from './switch.ts';

/** Some tests to be run, and how long they take without a mutant. */
export interface Trial {
  order: Order;
  expectedMs: number;
}

/** What reading a test file and its modules takes beside the tests that are wanted. */
const readingMs = (file: FileSeen): number =>
  Math.max(0, file.durationMs - file.tests.reduce((sum, { durationMs }) => sum + durationMs, 0));

/** How much longer a mutant may go round than any test did without it. */
const roundsMax = (most: number): number => 20 * most + 1000;

const countOf = (mutant: number, reached: readonly [number, number][]): number =>
  reached.find(([id]) => id === mutant)?.[1] ?? 0;

const before = (mutant: number, { tests }: FileSeen): boolean =>
  tests.some(({ reached }) => countOf(mutant, reached.before) > 0);

const inTest = (mutant: number, { reached }: TestSeen): number => countOf(mutant, reached.inTest);

/** Every test that comes by one mutant, quickest file first; a file that does so beforehand takes part with all its tests. */
export function wholeTrial(mutant: number, seen: readonly FileSeen[]): Trial {
  let most = 0;
  const taking = seen.flatMap((file) => {
    const all = before(mutant, file);
    const tests = file.tests.filter((test) => all || inTest(mutant, test) > 0);
    if (tests.length === 0) return [];
    for (const test of tests) most = Math.max(most, inTest(mutant, test), countOf(mutant, test.reached.before));
    const expectedMs = tests.reduce((sum, { durationMs }) => sum + durationMs, readingMs(file));
    return [{ path: file.path, tests: all ? null : tests.map(({ id }) => id), expectedMs }];
  });
  return {
    order: {
      on: { mutant, limit: roundsMax(most) },
      files: taking.toSorted((a, b) => a.expectedMs - b.expectedMs).map(({ path, tests }) => ({ path, tests })),
    },
    expectedMs: taking.reduce((sum, { expectedMs }) => sum + expectedMs, 0),
  };
}

/** The mutants that a file's tests come by themselves: each is tried in a test once the test has passed without it. */
export function trialsInFile(mutants: readonly number[], file: FileSeen): Record<string, On[]> {
  const within = mutants.filter((mutant) => !before(mutant, file));
  const trials = file.tests.flatMap((test): [string, On[]][] => {
    const due = within.flatMap((mutant) => {
      const rounds = inTest(mutant, test);
      return rounds === 0 ? [] : [{ mutant, limit: roundsMax(rounds) }];
    });
    return due.length === 0 ? [] : [[test.id, due]];
  });
  return Object.fromEntries(trials);
}

/** No mutant. */
export const none: On = { mutant: -1, limit: 0 };
