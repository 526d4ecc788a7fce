import { RefusedError } from '../errors.ts';
import { tagMost } from './tag.ts';

/**
 * The next numbers for labels: above every number ever given, so that a label on a thing that is gone is never another's.
 *
 * @param given - numbers of all things of all shelves and of all frozen manifests
 * @param count - how many are wanted
 * @returns so many numbers, ascending
 * @throws RefusedError where 999 999 does not leave so many
 * @example freeTags([3, 7], 2) // [8, 9]
 */
export function freeTags(given: Iterable<number>, count: number): number[] {
  let last = 0;
  for (const tag of given) last = Math.max(last, tag);
  if (last + count > tagMost)
    throw new RefusedError({
      code: 'out-of-range',
      message: `labels are numbered up to ${tagMost}; ${tagMost - last} numbers are left, ${count} are asked for`,
      value: count,
    });
  return Array.from({ length: count }, (_, at) => last + 1 + at);
}
