/** One contestant: does its work `times` times and gives a number that depends on all of it, so that none is left out. */
export interface Contestant {
  name: string;
  times: number;
  run: (times: number) => number;
}

export interface Timed {
  name: string;
  /** Median over the rounds. */
  nsEach: number;
}

const rounds = 15;

/** Times all in turn, round by round, so that a busy moment of the machine falls on every one alike; the first rounds warm up. */
export function timed(contestants: readonly Contestant[]): Timed[] {
  const samples = contestants.map((): number[] => []);
  for (let round = -3; round < rounds; round += 1) {
    for (const [index, { name, times, run }] of contestants.entries()) {
      const began = performance.now();
      const sum = run(times);
      const ns = ((performance.now() - began) * 1e6) / times;
      if (!Number.isFinite(sum)) throw new Error(`${name} gave ${sum}`);
      if (round >= 0) samples[index]?.push(ns);
    }
  }
  return contestants.map(({ name }, index) => ({ name, nsEach: median(samples[index] ?? []) }));
}

function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[values.length >> 1] ?? Number.NaN;
}
