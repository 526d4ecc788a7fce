import type { CalloutLine, CalloutLook } from '../../shared-types/inspection.ts';
import { createTableDesk } from './tableDesk.ts';
import type { TableDesk } from './tableDesk.ts';

export type CalloutDesk = TableDesk<CalloutLine, CalloutLook>;

/** Judges tables of callouts. */
export function createCalloutDesk(): CalloutDesk {
  return createTableDesk<CalloutLine, CalloutLook>({
    worker: () => new Worker(new URL('./calloutsWorker.ts', import.meta.url), { type: 'module' }),
    what: 'the callouts',
  });
}
