import type { Mutation } from './mutations.ts';

/** A mutation with the number by which it is switched on. */
export interface Numbered extends Mutation {
  id: number;
}

/** The name under which the switch stands in the realm of the tests. */
export const switchName = '__engineMutant';

/**
 * The text of a file with `mutants` in it, each behind a switch: `(on(7) ? a - b : a + b)`. One build serves every
 * mutant, and the switch tells which tests come by it. Only one is on at a time, so a mutant's own text has none in it.
 */
export function instrumented(text: string, mutants: readonly Numbered[]): string {
  const outermostFirst = mutants.toSorted((a, b) => a.start - b.start || b.end - a.end || a.id - b.id);
  return written(text, 0, text.length, outermostFirst);
}

/** The text from `start` to `end` with the mutants that stand in it. */
function written(text: string, start: number, end: number, mutants: readonly Numbered[]): string {
  let result = '';
  let at = start;
  for (let next = 0; next < mutants.length;) {
    const outer = mutants[next] as Numbered;
    const inner: Numbered[] = [];
    next += 1;
    for (; next < mutants.length && (mutants[next] as Numbered).end <= outer.end; next += 1)
      inner.push(mutants[next] as Numbered);
    const own = written(text, outer.start, outer.end, inner);
    result += `${text.slice(at, outer.start)}(globalThis.${switchName}(${outer.id})?(${outer.to}):(${own}))`;
    at = outer.end;
  }
  return result + text.slice(at, end);
}
