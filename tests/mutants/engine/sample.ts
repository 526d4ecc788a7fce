import type { Mutation } from './mutations.ts';

/** Numbers from 0 up to 1, the same for the same seed on every machine (a linear congruential step, mixed). */
function dice(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    let mixed = state ^ (state >>> 16);
    mixed = Math.imul(mixed, 0x45d9f3b) >>> 0;
    return ((mixed ^ (mixed >>> 15)) >>> 0) / 2 ** 32;
  };
}

function shuffled<T>(list: readonly T[], throwDice: () => number): T[] {
  const result = [...list];
  for (let last = result.length - 1; last > 0; last -= 1) {
    const other = Math.floor(throwDice() * (last + 1));
    [result[last], result[other]] = [result[other] as T, result[last] as T];
  }
  return result;
}

/** How many of `count` fall to each file: in proportion to what it holds, the largest remainders first. */
function shares(sizes: ReadonlyMap<string, number>, count: number): Map<string, number> {
  const total = [...sizes.values()].reduce((sum, size) => sum + size, 0);
  const due = [...sizes].map(([file, size]) => ({ file, exact: (size * count) / total }));
  const taken = new Map(due.map(({ file, exact }) => [file, Math.floor(exact)]));
  const left = count - [...taken.values()].reduce((sum, whole) => sum + whole, 0);
  const byRemainder = due.toSorted((a, b) => (b.exact % 1) - (a.exact % 1) || (a.file < b.file ? -1 : 1));
  for (const { file } of byRemainder.slice(0, left)) taken.set(file, (taken.get(file) ?? 0) + 1);
  return taken;
}

/** `count` of the mutations, spread over the files; all of them where there are no more. The same seed, the same list. */
export function sampleOf(mutations: ReadonlyMap<string, readonly Mutation[]>, count: number, seed: number): Mutation[] {
  const sizes = new Map([...mutations].map(([file, of]) => [file, of.length]));
  const total = [...sizes.values()].reduce((sum, size) => sum + size, 0);
  const taken = shares(sizes, Math.min(count, total));
  const throwDice = dice(seed);
  return [...mutations].flatMap(([file, of]) =>
    shuffled(of, throwDice)
      .slice(0, taken.get(file))
      .toSorted((a, b) => a.start - b.start || b.end - a.end),
  );
}
