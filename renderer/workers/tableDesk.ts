import type { Refusal } from '../../shared-types/errors.ts';
import type {
  JudgedLine,
  JudgedTyped,
  LineView,
  TableJudged,
  TypedLook,
  TypedRow,
} from '../../shared-types/inspection.ts';
import type { TableAsked, TableTold } from './tableMessages.ts';

/** How far a table is judged. The first lines come in pieces; those of the judgement before stay until the new one is whole. */
export interface TableState<Line extends JudgedLine = JudgedLine, Sum extends TableJudged = TableJudged> {
  kind: 'judging' | 'done' | 'refused' | 'cancelled';
  done: number;
  count: number;
  lines: readonly Line[];
  judged: Sum | null;
  refusal: Refusal | null;
  /** Counted up with each whole judgement: places and looks of an earlier one are of other rows. */
  turn: number;
}

export interface TableDesk<
  Line extends JudgedLine,
  Look extends TypedLook,
  Beside = null,
  Sum extends TableJudged = TableJudged,
> {
  state(of: string): TableState<Line, Sum> | null;
  subscribe(listener: () => void): () => void;
  judgeKept(of: string, columns: readonly string[], rows: readonly TypedRow[], beside: Beside): void;
  judgeFile(of: string, name: string, bytes: Uint8Array<ArrayBuffer>, beside: Beside): void;
  forget(of: string): void;
  /** Ends whatever is judged, at once. */
  cancel(): void;
  order(of: string, view: LineView): Promise<Uint32Array>;
  look(of: string, key: string): Promise<Look | null>;
  cells(of: string, from: number, count: number): Promise<TypedRow['cells'][]>;
  judgedRows(of: string, from: number, count: number): Promise<JudgedTyped<Look>[]>;
}

/** So many rows are handed over at a time: a piece costs the page a few ms. */
const pieceSize = 500;
/** The page draws what came so often, and not with each piece. */
const toldEveryMs = 120;

/** So many lines are shown while the others are judged: more would be drawn anew with each piece. */
const shownMeanwhile = 2000;

const nothingYet = { done: 0, count: 0, lines: [], judged: null, refusal: null } as const;
const breathe = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

/**
 * Judges tables in a worker of its own, so that the window never waits.
 *
 * @param start.worker - starts the worker
 * @param start.what - what is judged, for a sentence: "the callouts"
 */
export function createTableDesk<
  Line extends JudgedLine,
  Look extends TypedLook,
  Beside = null,
  Sum extends TableJudged = TableJudged,
>(start: { worker: () => Worker; what: string }): TableDesk<Line, Look, Beside, Sum> {
  type Told = TableTold<Line, Look, Sum>;
  const listeners = new Set<() => void>();
  const states = new Map<string, TableState<Line, Sum>>();
  const coming = new Map<string, { turn: number; lines: Line[] }>();
  const asks = new Map<number, (answer: Told | null) => void>();
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
  const set = (of: string, change: Partial<TableState<Line, Sum>>): void => {
    const before = states.get(of) ?? { kind: 'judging', ...nothingYet, turn: 0 };
    states.set(of, { ...before, ...change });
  };

  const take = (told: Told): void => {
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
      const before = states.get(of);
      const shows = before?.judged == null && (before?.lines.length ?? 0) < shownMeanwhile;
      set(of, { done: told.done, count: told.count, ...(shows ? { lines: now.lines.slice(0, shownMeanwhile) } : {}) });
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
  const post = (asked: TableAsked<Beside>, transfer: Transferable[] = []): void => {
    if (worker === null) {
      worker = start.worker();
      const mine = worker;
      worker.addEventListener('message', ({ data }: MessageEvent<Told>) => {
        if (worker === mine) take(data);
      });
      worker.addEventListener('error', (event) => {
        if (worker === mine) fail(`judging ${start.what} stopped: ${event.message}`);
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
  const ask = async <Kind extends Told['kind']>(
    asked: (number: number) => TableAsked<Beside>,
    kind: Kind,
  ): Promise<Extract<Told, { kind: Kind }> | null> => {
    lastAsk += 1;
    const number = lastAsk;
    const answer = await new Promise<Told | null>((resolve) => {
      asks.set(number, resolve);
      post(asked(number));
    });
    return answer?.kind === kind ? (answer as Extract<Told, { kind: Kind }>) : null;
  };

  return {
    state: (of) => states.get(of) ?? null,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    judgeKept(of, columns, rows, beside) {
      const turn = begin(of);
      const hand = async (): Promise<void> => {
        post({ kind: 'begin', of, turn, columns: [...columns], beside });
        for (let from = 0; from < rows.length; from += pieceSize) {
          if (from > 0) await breathe();
          if (coming.get(of)?.turn !== turn) return;
          post({ kind: 'rows', of, turn, rows: rows.slice(from, from + pieceSize) });
        }
        post({ kind: 'judge', of, turn });
      };
      void hand();
    },
    judgeFile(of, name, bytes, beside) {
      const turn = begin(of);
      post({ kind: 'judge-file', of, turn, name, bytes, beside }, [bytes.buffer]);
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
      const answer = await ask((number) => ({ kind: 'look', of, ask: number, key }), 'looked');
      return answer?.look ?? null;
    },
    async cells(of, from, count) {
      return (await ask((number) => ({ kind: 'cells', of, ask: number, from, count }), 'cells'))?.cells ?? [];
    },
    async judgedRows(of, from, count) {
      const answer = await ask((number) => ({ kind: 'rows-judged', of, ask: number, from, count }), 'rows-judged');
      return answer?.rows ?? [];
    },
  };
}
