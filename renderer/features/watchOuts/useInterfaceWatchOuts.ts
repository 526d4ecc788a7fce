import { useMemo } from 'react';
import type { Interface } from '../../../shared-types/records/site.ts';
import { watchOutsOfInterface } from '../../engine/watchOuts/index.ts';
import type { SaidWatchOut } from '../../engine/watchOuts/index.ts';
import { useTable } from '../session/useStore.ts';
import { tieToInterface } from './ties.ts';
import { writeWatchOut } from './watchOutAsking.ts';

/** The watch-outs of the interface in hand, and the way to write another one that is tied to it. */
export function useInterfaceWatchOuts(at: Interface): { said: SaidWatchOut[]; write: () => void } {
  const records = useTable('watchOuts').rows;
  const steps = useTable('steps').rows;
  const sites = useTable('sites').rows;
  const said = useMemo(
    () => watchOutsOfInterface({ at, steps: steps.values() }, records.values()),
    [at, steps, records],
  );
  return { said, write: () => writeWatchOut({ ties: [tieToInterface(at, sites)] }) };
}
