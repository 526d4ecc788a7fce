import type { Refusal } from '../../shared-types/errors.ts';
import type { ReadyRow, RunCounts, TargetName } from '../engine/tableImport/index.ts';
import { keptPiece } from './tableImportMessages.ts';
import type {
  RunAsked,
  TableChoice,
  TableImportAsked,
  TableImportTold,
  TableOrigin,
  TableShown,
} from './tableImportMessages.ts';

export type { TableChoice, TableOrigin, TableShown } from './tableImportMessages.ts';

/** A table that opened, or why it did not; of a workbook its sheets all the same, so that another can be chosen. */
export type Opening =
  | { kind: 'shown'; shown: TableShown }
  | { kind: 'refused'; refusal: Refusal; sheets: TableShown['sheets'] };

export interface RunResult {
  columns: string[];
  counts: RunCounts;
  ready: ReadyRow[];
  /** Every cell that cannot be read, in the order of the file's lines. */
  refusals: Refusal[];
}

export interface TableImporting {
  /** Answers null where it was asked anew, or ended, before. */
  open(origin: TableOrigin, choice: TableChoice): Promise<Opening | null>;
  /** Answers null where it was stopped. */
  run(asked: RunAsked, onProgress: (done: number, count: number) => void): Promise<RunResult | Refusal | null>;
  /** Stops what is under way, at once: the worker is ended, and another begins where it is asked again. */
  stop(): void;
}

const breathe = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

/** What takes longer hangs, and is ended. */
const openingMs = 60_000;

/** Opens tables and tries them out in a worker, so that the window never waits, and nothing in a file can hold it up. */
export function startTableImport(target: TargetName): TableImporting {
  let worker: Worker | null = null;
  /** What a new worker must be told before anything else. */
  let opened: Extract<TableImportAsked, { kind: 'open' }> | null = null;
  let give: ((message: TableImportTold | null) => void) | null = null;

  const stop = (): void => {
    worker?.terminate();
    worker = null;
    const asked = give;
    give = null;
    asked?.(null);
  };
  const started = (): Worker => {
    const fresh = new Worker(new URL('./tableImportWorker.ts', import.meta.url), { type: 'module' });
    fresh.addEventListener('message', ({ data }: MessageEvent<TableImportTold>) => {
      if (worker === fresh) give?.(data);
    });
    fresh.addEventListener('error', (event) => {
      if (worker !== fresh) return;
      const refusal = { code: 'internal' as const, message: `Reading the table stopped: ${event.message}` };
      give?.({ kind: 'refused', refusal, sheets: [] });
    });
    worker = fresh;
    return fresh;
  };

  return {
    open(origin, choice) {
      if (give !== null) stop();
      opened = { kind: 'open', target, origin, choice };
      return new Promise((resolve) => {
        const late = setTimeout(() => {
          const refusal = { code: 'too-large' as const, message: 'The table took more than a minute to read.' };
          stop();
          resolve({ kind: 'refused', refusal, sheets: [] });
        }, openingMs);
        give = (message) => {
          clearTimeout(late);
          give = null;
          resolve(message === null || message.kind === 'shown' || message.kind === 'refused' ? message : null);
        };
        (worker ?? started()).postMessage(opened);
      });
    },
    run(asked, onProgress) {
      const result: RunResult = {
        columns: [],
        counts: { rows: 0, add: 0, change: 0, same: 0, bad: 0, badCells: 0 },
        ready: [],
        refusals: [],
      };
      return new Promise((resolve) => {
        const ended = worker === null;
        const at = worker ?? started();
        give = (message) => {
          if (message === null) return resolve(null);
          if (message.kind === 'found') {
            for (const row of message.ready) result.ready.push(row);
            for (const refusal of message.refusals) result.refusals.push(refusal);
          } else if (message.kind === 'progress') onProgress(message.done, message.count);
          else if (message.kind === 'refused') {
            give = null;
            resolve(message.refusal);
          } else if (message.kind === 'done') {
            give = null;
            const refusals = result.refusals.toSorted((a, b) => (a.row ?? 0) - (b.row ?? 0));
            resolve({ ...result, refusals, columns: message.columns, counts: message.counts });
          }
        };
        if (ended && opened !== null) at.postMessage(opened);
        const { kept, ...rest } = asked;
        const hand = async (): Promise<void> => {
          for (let from = 0; from === 0 || from < kept.length; from += keptPiece) {
            if (from > 0) await breathe();
            // Stopped, or asked anew: this worker is not the one any more.
            if (worker !== at) return;
            // Cells alone: what else a row carries is nothing to the table.
            const rows = kept.slice(from, from + keptPiece).map(({ cells }) => ({ cells }));
            at.postMessage({ kind: 'kept', rows, isFirst: from === 0 } satisfies TableImportAsked);
          }
          at.postMessage({ kind: 'run', asked: rest } satisfies TableImportAsked);
        };
        void hand();
      });
    },
    stop,
  };
}
