import { useMemo } from 'react';
import { Button } from '@mantine/core';
import type { TaskStep } from '../../../shared-types/records/task.ts';
import { allTables } from '../../engine/handbook/index.ts';
import { RefusedError } from '../../engine/errors.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { placeAddress } from '../../store/place.ts';
import type { Act } from '../../store/store.ts';
import { useTable } from '../session/useStore.ts';
import { calloutToTake, takeTorque } from './takenTorque.ts';
import { TorqueChange, torqueChanges } from './TorqueChange.tsx';

export interface TorqueOriginProps {
  step: TaskStep;
  number: number;
  units: UnitsShown;
  run: (act: Act) => Promise<boolean>;
}

/** Where a step's torque was taken from, with the way there, and whether that still says the same. */
export function TorqueOrigin({ step, number, units, run }: TorqueOriginProps) {
  const { calloutFrom } = step;
  if (calloutFrom === undefined) return null;
  return (
    <section className="bw-torque-origin" aria-label="Where its torque was taken from">
      {calloutFrom.kind === 'handbook' ? (
        <OfHandbook from={calloutFrom} />
      ) : (
        <OfCallout from={calloutFrom} step={step} number={number} units={units} run={run} />
      )}
    </section>
  );
}

type From<Kind extends 'callout' | 'handbook'> = Extract<TaskStep['calloutFrom'], { kind: Kind }>;

function OfHandbook({ from }: { from: From<'handbook'> }) {
  const table = allTables.find(({ key }) => key === from.table);
  return (
    <p>
      Torque taken from{' '}
      {table === undefined ? (
        `the table ${from.table}, which is not held any more`
      ) : (
        <a href={placeAddress({ at: 'handbook', table: from.table, row: from.row })}>
          {table.source.number}, {table.source.table}, row {from.row.replace(/~\d+$/, '')}
        </a>
      )}
      {from.condition === undefined ? '' : `, ${from.condition}`}.
    </p>
  );
}

function OfCallout({ from, step, number, units, run }: TorqueOriginProps & { from: From<'callout'> }) {
  const callouts = useTable('callouts');
  const lists = useTable('calloutLists');
  const row = callouts.rows.get(from.callout);
  const list = row === undefined ? undefined : lists.rows.get(row.list);
  const now = useMemo(() => {
    if (row === undefined || list === undefined) return null;
    try {
      return calloutToTake(row, list.name);
    } catch (error) {
      if (!(error instanceof RefusedError)) throw error;
      return null;
    }
  }, [row, list]);
  if (!callouts.ready || !lists.ready) return null;
  if (row === undefined || list === undefined)
    return <p>Torque taken from callout {from.id}, which is not kept any more.</p>;
  const link = (
    <a href={placeAddress({ at: 'callouts', list: list.id, callout: row.id })}>
      callout {from.id} of “{list.name}”
    </a>
  );
  if (now === null) return <p>Torque taken from {link}, which cannot be read now.</p>;
  const isSame = torqueChanges(step, now, units).length === 0;
  if (isSame) return <p>Torque taken from {link}; both say the same.</p>;
  return (
    <>
      <p>Torque taken from {link}, which says something else now:</p>
      <TorqueChange step={step} torque={now} units={units} />
      <Button size="xs" onClick={() => void run(takeTorque([{ step, number }], now))}>
        Take it as it is now
      </Button>
    </>
  );
}
