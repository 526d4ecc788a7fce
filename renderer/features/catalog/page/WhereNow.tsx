import { useMemo } from 'react';
import type { Item } from '../../../../shared-types/records/item.ts';
import { useTable } from '../../session/useStore.ts';
import type { CodeHolders, Usage } from '../usage.ts';
import { whereNow } from './whereNow.ts';

const shownMost = 12;

/** Where it is: in the store, in which planned bag, set down by which step. */
export function WhereNow({ item, usage, holders }: { item: Item; usage: Usage; holders: CodeHolders }) {
  const results = useTable('results');
  const lines = useMemo(
    () => whereNow(item, usage, { holders, results: results.rows }),
    [item, usage, holders, results.rows],
  );
  return (
    <section aria-labelledby="item-where">
      <h2 id="item-where">Where it is</h2>
      {lines.length === 0 ? (
        <p className="bw-second">No place in the store is said, and it is in no planned bag.</p>
      ) : (
        <ul>
          {lines.slice(0, shownMost).map(({ kind, words }) => (
            <li key={words} dir="auto">
              {kind === 'left' ? <b>{words}</b> : words}
            </li>
          ))}
        </ul>
      )}
      {lines.length > shownMost ? <p className="bw-second">and {lines.length - shownMost} more</p> : null}
    </section>
  );
}
