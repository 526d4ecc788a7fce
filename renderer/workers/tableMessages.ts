import type { Refusal } from '../../shared-types/errors.ts';
import type {
  JudgedLine,
  JudgedTyped,
  LineView,
  TableJudged,
  TypedLook,
  TypedRow,
} from '../../shared-types/inspection.ts';

/** What the page sends; `of` names the table. Rows of a kept list come in pieces before it is judged; `beside` is what they are judged against. */
export type TableAsked<Beside> =
  | { kind: 'begin'; of: string; turn: number; columns: string[]; beside: Beside }
  | { kind: 'rows'; of: string; turn: number; rows: TypedRow[] }
  | { kind: 'judge'; of: string; turn: number }
  | { kind: 'judge-file'; of: string; turn: number; name: string; bytes: Uint8Array; beside: Beside }
  | { kind: 'forget'; of: string }
  | { kind: 'order'; of: string; ask: number; view: LineView }
  | { kind: 'look'; of: string; ask: number; key: string }
  | { kind: 'cells'; of: string; ask: number; from: number; count: number }
  | { kind: 'rows-judged'; of: string; ask: number; from: number; count: number };

/** What the worker sends back. */
export type TableTold<Line extends JudgedLine, Look extends TypedLook, Sum extends TableJudged> =
  | { kind: 'lines'; of: string; turn: number; lines: Line[]; done: number; count: number }
  | { kind: 'done'; of: string; turn: number; judged: Sum }
  | { kind: 'refused'; of: string; turn: number; refusal: Refusal }
  | { kind: 'ordered'; ask: number; places: Uint32Array }
  | { kind: 'looked'; ask: number; look: Look | null }
  | { kind: 'cells'; ask: number; cells: TypedRow['cells'][] }
  | { kind: 'rows-judged'; ask: number; rows: JudgedTyped<Look>[] };
