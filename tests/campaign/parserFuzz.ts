/** F16: damaged inputs over every parser. */
import { chanceOf, must, type Part } from './part.ts';
import { keptReaders } from './parsers/kept.ts';
import { outcomeOf, type FuzzReader } from './parsers/reader.ts';
import { tableReaders } from './parsers/tables.ts';
import { valueReaders } from './parsers/values.ts';

export const fuzzReaders: readonly FuzzReader[] = [...valueReaders, ...tableReaders, ...keptReaders];

/** Each as often as its weight says, and never long after the last time. */
const inTurn: readonly FuzzReader[] = Array.from({ length: 8 }, (_, round) =>
  fuzzReaders.filter(({ weight }) => round % (8 / weight) === 0),
).flat();

const mostBytes = 450 * 2 ** 20;

export const parserFuzz: Part = {
  of: 'F16',
  fault: `a damaged input to one of ${fuzzReaders.length} parsers`,
  trials: 24_000,
  open() {
    const heldBefore = process.memoryUsage.rss();
    return {
      async trial(n, chance) {
        const reader = inTurn[n % inTurn.length];
        if (reader === undefined) throw new Error('no reader');
        await outcomeOf(reader, chance);
        if (n % 500 !== 0) return;
        const grown = process.memoryUsage.rss() - heldBefore;
        must(grown < mostBytes, 'broken', `the parsers hold ${Math.round(grown / 2 ** 20)} MB more than before`);
      },
    };
  },
};

/** One parser's first so many trials of those above, counted. */
export async function fuzzed(
  reader: FuzzReader,
  seed: number,
  trials: number,
): Promise<Record<'read' | 'refused', number>> {
  const counts = { read: 0, refused: 0 };
  for (let n = 0, done = 0; done < trials; n += 1) {
    if (inTurn[n % inTurn.length] !== reader) continue;
    done += 1;
    counts[await outcomeOf(reader, chanceOf(seed, parserFuzz, n))] += 1;
  }
  return counts;
}
