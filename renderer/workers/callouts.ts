import type { Refusal } from '../../shared-types/errors.ts';
import type { CalloutLine, CalloutLook, LineView, TableJudged, TypedRow } from '../../shared-types/inspection.ts';
import type { CalloutsAsked, CalloutsTold } from './calloutsMessages.ts';

/** How far a table is judged. Lines come in pieces; those of the judgement before stay until the new one is whole. */
export interface TableState {
  kind: 'judging' | 'done' | 'refused' | 'cancelled';
  done: number;
  count: number;
  lines: readonly CalloutLine[];
  judged: TableJudged | null;
  refusal: Refusal | null;
  /** Counted up with each whole judgement: places and looks of an earlier one are of other rows. */
  turn: number;
}

export interface CalloutDesk {
  state(of: string): TableState | null;
  subscribe(listener: () => void): () => void;
  judgeKept(of: string, columns: readonly string[], rows: readonly TypedRow[]): void;
  judgeFile(of: string, name: string, bytes: Uint8Array<ArrayBuffer>): void;
  forget(of: string): void;
  /** Ends whatever is judged, at once. */
  cancel(): void;
  order(of: string, view: LineView): Promise<Uint32Array>;
  look(of: string, key: string): Promise<CalloutLook | null>;
  cells(of: string, from: number, count: number): Promise<TypedRow['cells'][]>;
}

/** So many rows are handed over at a time: a piece costs the page a few ms. */
const pieceSize = 500;
/** The page draws what came so often, and not with each piece. */
const toldEveryMs = 120;

const nothingYet = { done: 0, count: 0, lines: [], judged: null, refusal: null } as const;
const breathe = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

type Coming = { turn: number; lines: CalloutLine[] };

/** Judges tables of callouts in a worker of its own, so that the window never waits. */
export function createCalloutDesk(): CalloutDesk {
  const listeners = new Set<() => void>();
  const states = new Map<string, TableState>();
  const coming = new Map<string, Coming>();
  const asks = new Map<number, (answer: CalloutsTold | null) => void>();
  let worker: Worker | null = null;
  let lastTurn = 0;
  let lastAsk = 0;
  let timer: ReturnType<typeof setTimeout> | null = null;

  const tell = (): void => {
    if (timer !== null) clearTimeout(timer);
    timer = null;
    for (const listener of listeners) listener();
  };
  const tellSoon = (): void => {
    timer ??= setTimeout(tell, toldEveryMs);
  };
  const set = (of: string, change: Partial<TableState>): void => {
    const before = states.get(of) ?? { kind: 'judging', ...nothingYet, turn: 0 };
    states.set(of, { ...before, ...change });
  };

  const take = (told: CalloutsTold): void => {
    if ('ask' in told) {
      asks.get(told.ask)?.(told);
      asks.delete(told.ask);
      return;
    }
    const { of, turn } = told;
    const now = coming.get(of);
    // What was asked for before is not wanted any more.
    if (now?.turn !== turn) return;
    if (told.kind === 'lines') {
      for (const line of told.lines) now.lines.push(line);
      const isFirst = states.get(of)?.judged == null;
      set(of, { done: told.done, count: told.count, ...(isFirst ? { lines: now.lines } : {}) });
      tellSoon();
      return;
    }
    coming.delete(of);
    if (told.kind === 'done') {
      const { lines } = now;
      set(of, {
        kind: 'done',
        done: lines.length,
        count: lines.length,
        lines,
        judged: told.judged,
        refusal: null,
        turn,
      });
    } else set(of, { kind: 'refused', ...nothingYet, refusal: told.refusal, turn });
    tell();
  };

  const fail = (message: string): void => {
    for (const of of coming.keys()) set(of, { kind: 'refused', ...nothingYet, refusal: { code: 'internal', message } });
    coming.clear();
    for (const answer of asks.values()) answer(null);
    asks.clear();
    tell();
  };
  const post = (asked: CalloutsAsked, transfer: Transferable[] = []): void => {
    if (worker === null) {
      worker = new Worker(new URL('./calloutsWorker.ts', import.meta.url), { type: 'module' });
      const mine = worker;
      worker.addEventListener('message', ({ data }: MessageEvent<CalloutsTold>) => {
        if (worker === mine) take(data);
      });
      worker.addEventListener('error', (event) => {
        if (worker === mine) fail(`judging the callouts stopped: ${event.message}`);
      });
    }
    worker.postMessage(asked, transfer);
  };
  const begin = (of: string): number => {
    lastTurn += 1;
    coming.set(of, { turn: lastTurn, lines: [] });
    set(of, { kind: 'judging', done: 0 });
    tellSoon();
    return lastTurn;
  };
  const ask = async <Kind extends CalloutsTold['kind']>(
    asked: (number: number) => CalloutsAsked,
    kind: Kind,
  ): Promise<Extract<CalloutsTold, { kind: Kind }> | null> => {
    lastAsk += 1;
    const number = lastAsk;
    const answer = await new Promise<CalloutsTold | null>((resolve) => {
      asks.set(number, resolve);
      post(asked(number));
    });
    return answer?.kind === kind ? (answer as Extract<CalloutsTold, { kind: Kind }>) : null;
  };

  return {
    state: (of) => states.get(of) ?? null,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    judgeKept(of, columns, rows) {
      const turn = begin(of);
      const hand = async (): Promise<void> => {
        post({ kind: 'begin', of, turn, columns: [...columns] });
        for (let from = 0; from < rows.length; from += pieceSize) {
          if (from > 0) await breathe();
          if (coming.get(of)?.turn !== turn) return;
          post({ kind: 'rows', of, turn, rows: rows.slice(from, from + pieceSize) });
        }
        post({ kind: 'judge', of, turn });
      };
      void hand();
    },
    judgeFile(of, name, bytes) {
      const turn = begin(of);
      post({ kind: 'judge-file', of, turn, name, bytes }, [bytes.buffer]);
    },
    forget(of) {
      states.delete(of);
      coming.delete(of);
      if (worker !== null) post({ kind: 'forget', of });
      tell();
    },
    cancel() {
      worker?.terminate();
      worker = null;
      for (const of of coming.keys()) set(of, { kind: 'cancelled', ...nothingYet });
      coming.clear();
      for (const answer of asks.values()) answer(null);
      asks.clear();
      tell();
    },
    async order(of, view) {
      const answer = await ask((number) => ({ kind: 'order', of, ask: number, view }), 'ordered');
      return answer?.places ?? new Uint32Array();
    },
    async look(of, key) {
      return (await ask((number) => ({ kind: 'look', of, ask: number, key }), 'looked'))?.look ?? null;
    },
    async cells(of, from, count) {
      return (await ask((number) => ({ kind: 'cells', of, ask: number, from, count }), 'cells'))?.cells ?? [];
    },
  };
}
