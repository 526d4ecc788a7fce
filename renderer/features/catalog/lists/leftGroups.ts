import type { LeftApart, Shelf } from '../../../../shared-types/records/item.ts';
import { leftAs } from '../../../engine/catalog/index.ts';
import type { Doubles } from '../../../engine/catalog/index.ts';

/** A group that somebody left, with what was said then. */
export interface LeftGroup {
  group: Doubles;
  left: LeftApart;
}

export const codesOf = ({ items }: Doubles): string => items.map(({ code }) => code).join(' and ');

/** The groups that were left and stand as they did then; each lies on one shelf. */
export function leftOnShelf(groups: readonly Doubles[], shelves: ReadonlyMap<string, Shelf>): LeftGroup[] {
  return groups.flatMap((group) => {
    const left = leftAs(group, shelves.get(group.items[0]?.shelf ?? '')?.leftApart ?? []);
    return left === null ? [] : [{ group, left }];
  });
}
