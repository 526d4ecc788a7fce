import { useState } from 'react';
import { Button } from '@mantine/core';
import type { CalloutList, KeptCallout } from '../../../shared-types/records/judgedLists.ts';
import { cellNamed } from '../../engine/inspection/index.ts';
import { placeAddress } from '../../store/place.ts';
import { copyText } from '../bench/copyText.ts';
import { addCallout } from '../callouts/calloutActs.ts';
import { useSessionState } from '../session/SessionContext.ts';
import { useStore, useTable } from '../session/useStore.ts';
import { useAct } from '../task/useAct.tsx';
import { bandOfCallout, calloutCsv, cellsOf, type RowCallout } from './rowUses.ts';

/** What a row gives to callouts: into those of the task at hand, or as a line to be pasted anywhere. */
export function CalloutUses({ callouts }: { callouts: readonly RowCallout[] }) {
  const store = useStore();
  const { atHand, preferences } = useSessionState();
  const lists = useTable('calloutLists');
  const rows = useTable('callouts');
  const { run, notice } = useAct();
  const [said, setSaid] = useState('');
  const [added, setAdded] = useState<string | null>(null);
  const list = [...lists.rows.values()].find(({ task }) => task === atHand?.id);
  const code = atHand?.task.code;
  // Where a callout comes to stand is not known before the others are.
  const ready = lists.ready && rows.ready;

  const add = async (callout: RowCallout): Promise<void> => {
    if (atHand === null) return;
    const on: CalloutList = list ?? {
      ...{ id: store.newId(), rev: 0, task: atHand.id, name: 'Callouts', person: preferences.person },
      columns: ['id', 'thread', 'torqueMin', 'torqueMax'],
    };
    const own = [...rows.rows.values()].filter((row) => row.list === on.id);
    const row: KeptCallout = {
      ...{ id: store.newId(), rev: 0, list: on.id },
      position: own.reduce((last, one) => Math.max(last, one.position), -1) + 1,
      cells: cellsOf(callout, freeId(own)),
    };
    if (!(await run(addCallout(on, row, list === undefined)))) return;
    setAdded(on.id);
    setSaid(`Added as ${row.cells['id'] ?? ''} to “${on.name}”.`);
  };
  const copy = (callout: RowCallout): void => {
    setAdded(null);
    setSaid(
      copyText(calloutCsv(callout))
        ? `Copied as a line of callouts with its headings: ${callout.condition}.`
        : 'The browser did not take it.',
    );
  };
  return (
    <div>
      <b>Use in a callout</b>
      <ul className="bw-handbook-callouts">
        {callouts.map((callout) => (
          <li key={callout.condition}>
            {code === undefined || !ready || callout.ends === null ? null : (
              <Button size="xs" onClick={() => void add(callout)}>
                Add to the callouts of {code}
              </Button>
            )}
            <Button size="xs" onClick={() => copy(callout)}>
              Copy as a callout
            </Button>
            <span>
              {bandOfCallout(callout)} <span className="bw-second">{callout.condition}</span>
            </span>
          </li>
        ))}
      </ul>
      {notice}
      <p role="status" className="bw-second bw-small">
        {said} {added === null ? null : <a href={placeAddress({ at: 'callouts', list: added })}>To the callouts</a>}
      </p>
    </div>
  );
}

/** H-1, H-2 …: the first that no callout of the list has. */
function freeId(rows: readonly KeptCallout[]): string {
  const taken = new Set(rows.map(({ cells }) => cellNamed(cells, 'id')));
  let number = 1;
  while (taken.has(`H-${number}`)) number += 1;
  return `H-${number}`;
}
