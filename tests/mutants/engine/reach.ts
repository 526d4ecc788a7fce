import type { FileSeen, Order } from './testRuns.ts';

/** A mutant's tests, and how long they take without it. */
export interface Trial {
  order: Order;
  expectedMs: number;
}

/** What reading a test file and its modules takes beside the tests that are wanted. */
const readingMs = (file: FileSeen): number =>
  Math.max(0, file.durationMs - file.tests.reduce((sum, { durationMs }) => sum + durationMs, 0));

/** How much longer a mutant may go round than any test did without it. */
const roundsMax = (most: number): number => 20 * most + 1000;

/** The tests that come by `mutant`, quickest file first; a file that does so beforehand takes part with all its tests. */
export function trialOf(mutant: number, seen: readonly FileSeen[]): Trial {
  let most = 0;
  const taking = seen.flatMap((file) => {
    const countOf = (reached: [number, number][]) => reached.find(([id]) => id === mutant)?.[1] ?? 0;
    const before = file.tests.some(({ reached }) => countOf(reached.before) > 0);
    const tests = file.tests.filter(({ reached }) => before || countOf(reached.inTest) > 0);
    if (tests.length === 0) return [];
    for (const { reached } of tests) most = Math.max(most, countOf(reached.inTest), countOf(reached.before));
    const expectedMs = tests.reduce((sum, { durationMs }) => sum + durationMs, readingMs(file));
    return [{ path: file.path, tests: before ? null : tests.map(({ id }) => id), expectedMs }];
  });
  return {
    order: {
      mutant,
      limit: roundsMax(most),
      files: taking.toSorted((a, b) => a.expectedMs - b.expectedMs).map(({ path, tests }) => ({ path, tests })),
    },
    expectedMs: taking.reduce((sum, { expectedMs }) => sum + expectedMs, 0),
  };
}
