import type { LeftApart } from '../../../shared-types/records/item.ts';
import { asCompared, type Doubles } from './doubles.ts';

/**
 * A group as it is remembered once somebody has looked at it and left it: its items with what each of them is now.
 *
 * @param said - why they are two things, by whom, on which day
 */
export function leftNow(group: Doubles, said: Pick<LeftApart, 'why' | 'person' | 'on'>): LeftApart {
  const items = group.items.map((item) => ({ id: item.id, was: asCompared(item) }));
  return { reason: group.reason, items, ...said };
}

/**
 * What was said when a group was left.
 *
 * @returns null where it never was, where other items have come to it or gone from it, or where one of them is another than it was then
 */
export function leftAs(group: Doubles, left: readonly LeftApart[]): LeftApart | null {
  const now = new Map(group.items.map((item) => [item.id, item]));
  const same = left.findLast(
    ({ reason, items }) =>
      reason === group.reason &&
      items.length === group.items.length &&
      items.every(({ id, was }) => {
        const item = now.get(id);
        return item !== undefined && asCompared(item) === was;
      }),
  );
  return same ?? null;
}

/** What is still worth remembering of a shelf: groups that stand as they were left. */
export function stillLeft(groups: readonly Doubles[], left: readonly LeftApart[]): LeftApart[] {
  const found = new Set(groups.map((group) => leftAs(group, left)));
  return left.filter((one) => found.has(one));
}
