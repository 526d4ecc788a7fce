import type { AsRunBeside, AsRunLine, AsRunLook, AsRunTableJudged } from '../../shared-types/inspection.ts';
import { createTableDesk } from './tableDesk.ts';
import type { TableDesk, TableState } from './tableDesk.ts';

export type AsRunDesk = TableDesk<AsRunLine, AsRunLook, AsRunBeside, AsRunTableJudged>;
export type AsRunTableState = TableState<AsRunLine, AsRunTableJudged>;

/** Judges lists of what was recorded, each against its list of callouts. */
export function createAsRunDesk(): AsRunDesk {
  return createTableDesk<AsRunLine, AsRunLook, AsRunBeside, AsRunTableJudged>({
    worker: () => new Worker(new URL('./asRunWorker.ts', import.meta.url), { type: 'module' }),
    what: 'the records',
  });
}
