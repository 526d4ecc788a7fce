import { useMemo } from 'react';
import type { Item } from '../../../../shared-types/records/item.ts';
import { watchOutsOfItem } from '../../../engine/watchOuts/index.ts';
import { useTable } from '../../session/useStore.ts';
import { SaidWatchOuts } from '../../watchOuts/SaidWatchOuts.tsx';
import { tieToItem } from '../../watchOuts/ties.ts';
import { writeWatchOut } from '../../watchOuts/watchOutAsking.ts';
import type { Usage } from '../usage.ts';
import '../../steps/steps.css';

/** What was learned about it: records tied to it, and what is said before the steps and at the interfaces that name it. */
export function ItemWatchOuts({ item, usage }: { item: Item; usage: Usage }) {
  const records = useTable('watchOuts').rows;
  const shelves = useTable('shelves').rows;
  const said = useMemo(
    () =>
      watchOutsOfItem(
        { item, interfaces: usage.interfaces, steps: usage.steps.map(({ step }) => step) },
        records.values(),
      ),
    [item, usage, records],
  );
  return (
    <SaidWatchOuts title="Watch out" said={said} onWrite={() => writeWatchOut({ ties: [tieToItem(item, shelves)] })} />
  );
}
