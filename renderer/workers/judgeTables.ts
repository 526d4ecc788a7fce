/// <reference lib="webworker" />
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

/** A table that is judged piece by piece. */
interface Table<Line extends JudgedLine, Look extends TypedLook, Sum extends TableJudged> {
  readonly count: number;
  next(count: number): Line[];
  order(view: LineView): Uint32Array<ArrayBuffer>;
  look(key: string): Look | null;
  cells(from: number, count: number): TypedRow['cells'][];
  judgedRows(from: number, count: number): JudgedTyped<Look>[];
  judged(): Sum;
}

/** What a table is made from, with what it is judged against. */
export type GivenTable<Beside> = { beside: Beside } & (
  | { columns: readonly string[]; rows: readonly TypedRow[] }
  | { name: string; content: Uint8Array }
);

/** So many rows are judged before the page's messages are taken, and shown as they come. */
const pieceSize = 500;

const takeMessages = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

/**
 * Judges what the page sends, and answers it, for as long as the worker lives.
 *
 * @param given.open - makes a table; may refuse
 * @param given.refusal - a refusal in words
 */
export function judgeTables<Line extends JudgedLine, Look extends TypedLook, Beside, Sum extends TableJudged>(given: {
  open: (source: GivenTable<Beside>) => Table<Line, Look, Sum>;
  refusal: (error: unknown) => Refusal;
}): void {
  const tables = new Map<string, Table<Line, Look, Sum>>();
  const coming = new Map<string, { turn: number; columns: string[]; beside: Beside; rows: TypedRow[] }>();
  /** A table that is asked for anew is not judged to its end. */
  const turns = new Map<string, number>();
  const send = (message: TableTold<Line, Look, Sum>, transfer: Transferable[] = []): void =>
    self.postMessage(message, { transfer });

  const judge = async (of: string, turn: number, source: GivenTable<Beside>): Promise<void> => {
    turns.set(of, turn);
    try {
      const table = given.open(source);
      const { count } = table;
      for (let done = 0; done < count;) {
        const lines = table.next(pieceSize);
        done += lines.length;
        send({ kind: 'lines', of, turn, lines, done, count });
        await takeMessages();
        if (turns.get(of) !== turn) return;
      }
      tables.set(of, table);
      send({ kind: 'done', of, turn, judged: table.judged() });
    } catch (error) {
      send({ kind: 'refused', of, turn, refusal: given.refusal(error) });
    }
  };

  const take = (asked: TableAsked<Beside>): void => {
    const { of } = asked;
    switch (asked.kind) {
      case 'begin':
        coming.set(of, { turn: asked.turn, columns: asked.columns, beside: asked.beside, rows: [] });
        return;
      case 'rows':
        if (coming.get(of)?.turn === asked.turn) for (const row of asked.rows) coming.get(of)?.rows.push(row);
        return;
      case 'judge': {
        const held = coming.get(of);
        if (held?.turn !== asked.turn) return;
        coming.delete(of);
        void judge(of, asked.turn, held);
        return;
      }
      case 'judge-file':
        void judge(of, asked.turn, { name: asked.name, content: asked.bytes, beside: asked.beside });
        return;
      case 'forget':
        turns.delete(of);
        tables.delete(of);
        return;
      case 'order': {
        const places = tables.get(of)?.order(asked.view) ?? new Uint32Array();
        send({ kind: 'ordered', ask: asked.ask, places }, [places.buffer]);
        return;
      }
      case 'look':
        send({ kind: 'looked', ask: asked.ask, look: tables.get(of)?.look(asked.key) ?? null });
        return;
      case 'cells':
        send({ kind: 'cells', ask: asked.ask, cells: tables.get(of)?.cells(asked.from, asked.count) ?? [] });
        return;
      case 'rows-judged': {
        const rows = tables.get(of)?.judgedRows(asked.from, asked.count) ?? [];
        send({ kind: 'rows-judged', ask: asked.ask, rows });
      }
    }
  };
  self.addEventListener('message', ({ data }: MessageEvent<TableAsked<Beside>>) => take(data));
}
