/** What the benchmark is told on its command line. */
import { parseArgs } from 'node:util';
import type { Minimised, Tolerance } from '../../../shared-types/bag.ts';
import type { TaskSize } from '../../reference/tasks/generateTask.ts';

export interface BenchArguments {
  sizes: TaskSize[];
  seeds: number;
  first: number;
  tolerance: Tolerance;
  minimise: Minimised;
  structured: boolean;
  limitS: number;
  /** Compare with HiGHS on the plain model, and with a greedy bag. */
  plain: boolean;
  greedy: boolean;
  enumeration: boolean;
}

export const usage = `npx tsx tests/bench/tasks/run.ts [options]
  --size small|middle|large|all   default all
  --seeds N                       how many seeds of each size, default 30
  --first N                       the first of them, default 1
  --tolerance nothing|piece|bag   default nothing
  --minimise mass|count|volume    default mass
  --unstructured                  stock and steps without repeats
  --limit SECONDS                 for each plan and solver, default 60; unstructured 30
  --plain, --greedy               compare with HiGHS cold on the plain model, with a greedy bag
  --enumeration                   the enumeration of stacks alone, its time and memory
`;

const among = <T extends string>(text: string, allowed: readonly T[], name: string): T => {
  const found = allowed.find((one) => one === text);
  if (found === undefined) throw new Error(`--${name} ${text}: is one of ${allowed.join(', ')}`);
  return found;
};

export function readArguments(given: string[]): BenchArguments {
  const { values } = parseArgs({
    args: given,
    options: {
      size: { type: 'string', default: 'all' },
      seeds: { type: 'string', default: '30' },
      first: { type: 'string', default: '1' },
      tolerance: { type: 'string', default: 'nothing' },
      minimise: { type: 'string', default: 'mass' },
      unstructured: { type: 'boolean', default: false },
      limit: { type: 'string' },
      plain: { type: 'boolean', default: false },
      greedy: { type: 'boolean', default: false },
      enumeration: { type: 'boolean', default: false },
    },
  });
  const sizes = ['small', 'middle', 'large'] as const;
  return {
    // Without families only the two larger sizes are of interest.
    sizes: values.size === 'all' ? sizes.slice(values.unstructured ? 1 : 0) : [among(values.size, sizes, 'size')],
    seeds: Number(values.seeds),
    first: Number(values.first),
    tolerance: among(values.tolerance, ['nothing', 'piece', 'bag'], 'tolerance'),
    minimise: among(values.minimise, ['mass', 'count', 'volume'], 'minimise'),
    structured: !values.unstructured,
    limitS: Number(values.limit ?? (values.unstructured ? 30 : 60)),
    plain: values.plain,
    greedy: values.greedy,
    enumeration: values.enumeration,
  };
}
