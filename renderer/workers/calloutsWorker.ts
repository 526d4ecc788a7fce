/// <reference lib="webworker" />
import { JudgedTable, orderOf, tableRefusal, type TableSource } from '../engine/inspection/index.ts';
import type { TypedRow } from '../../shared-types/inspection.ts';
import type { CalloutsAsked, CalloutsTold } from './calloutsMessages.ts';

/** So many rows are judged before the page's messages are taken, and shown as they come. */
const pieceSize = 500;

const tables = new Map<string, JudgedTable>();
const coming = new Map<string, { turn: number; columns: string[]; rows: TypedRow[] }>();
/** A table that is asked for anew is not judged to its end. */
const turns = new Map<string, number>();

function send(message: CalloutsTold, transfer: Transferable[] = []): void {
  self.postMessage(message, transfer);
}

const takeMessages = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

async function judge(of: string, turn: number, source: TableSource): Promise<void> {
  turns.set(of, turn);
  try {
    const table = new JudgedTable(source);
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
    send({ kind: 'refused', of, turn, refusal: tableRefusal(error) });
  }
}

function take(asked: CalloutsAsked): void {
  const { of } = asked;
  switch (asked.kind) {
    case 'begin':
      coming.set(of, { turn: asked.turn, columns: asked.columns, rows: [] });
      return;
    case 'rows':
      if (coming.get(of)?.turn === asked.turn) for (const row of asked.rows) coming.get(of)?.rows.push(row);
      return;
    case 'judge': {
      const given = coming.get(of);
      if (given?.turn !== asked.turn) return;
      coming.delete(of);
      void judge(of, asked.turn, given);
      return;
    }
    case 'judge-file':
      void judge(of, asked.turn, { name: asked.name, content: asked.bytes });
      return;
    case 'forget':
      turns.delete(of);
      tables.delete(of);
      return;
    case 'order': {
      const places = orderOf(tables.get(of)?.allLines() ?? [], asked.view);
      send({ kind: 'ordered', ask: asked.ask, places }, [places.buffer]);
      return;
    }
    case 'look':
      send({ kind: 'looked', ask: asked.ask, look: tables.get(of)?.look(asked.key) ?? null });
      return;
    case 'cells':
      send({ kind: 'cells', ask: asked.ask, cells: tables.get(of)?.cells(asked.from, asked.count) ?? [] });
  }
}

self.addEventListener('message', ({ data }: MessageEvent<CalloutsAsked>) => take(data));
