import { Button } from '@mantine/core';
import type { Shelf } from '../../../../shared-types/records/item.ts';
import { stillLeft } from '../../../engine/catalog/index.ts';
import type { Doubles } from '../../../engine/catalog/index.ts';
import { useAct } from '../../task/useAct.tsx';
import { compareAgainAct } from '../acts.ts';
import { countOf } from '../words.ts';
import { codesOf } from './leftGroups.ts';
import type { LeftGroup } from './leftGroups.ts';

export interface LeftGroupsProps {
  left: readonly LeftGroup[];
  shelves: ReadonlyMap<string, Shelf>;
  /** Every group that was found. */
  found: readonly Doubles[];
}

/** What was looked at and left, with why, when and by whom; any of it can be compared again. */
export function LeftGroups({ left, shelves, found }: LeftGroupsProps) {
  const { run, notice } = useAct();
  if (left.length === 0) return null;
  return (
    <details className="bw-form-group">
      <summary>{countOf(left.length, 'group')} left as they are</summary>
      {notice}
      <ul className="bw-lines">
        {left.map((one) => {
          const { group, left: said } = one;
          const shelf = shelves.get(group.items[0]?.shelf ?? '');
          const codes = codesOf(group);
          return (
            <li key={`${group.reason} ${codes}`}>
              <b className="bw-item-code">{codes}</b>{' '}
              <span>
                <bdi>{said.why}</bdi>
                <span className="bw-second">
                  {' '}
                  · {said.on}
                  {said.person === undefined ? null : (
                    <>
                      , <bdi>{said.person}</bdi>
                    </>
                  )}
                </span>
              </span>{' '}
              {shelf === undefined ? null : (
                <Button
                  size="compact-sm"
                  aria-label={`Compare ${codes} again`}
                  onClick={() => void run(compareAgainAct(shelf, stillLeft(found, shelf.leftApart ?? []), said, codes))}
                >
                  Compare again
                </Button>
              )}
            </li>
          );
        })}
      </ul>
    </details>
  );
}
