import type { Refusal } from '../../shared-types/errors.ts';
import type { CalloutLine, CalloutLook, LineView, TableJudged, TypedRow } from '../../shared-types/inspection.ts';

/** What the page sends; `of` names the table. Rows of a kept list come in pieces before it is judged. */
export type CalloutsAsked =
  | { kind: 'begin'; of: string; turn: number; columns: string[] }
  | { kind: 'rows'; of: string; turn: number; rows: TypedRow[] }
  | { kind: 'judge'; of: string; turn: number }
  | { kind: 'judge-file'; of: string; turn: number; name: string; bytes: Uint8Array }
  | { kind: 'forget'; of: string }
  | { kind: 'order'; of: string; ask: number; view: LineView }
  | { kind: 'look'; of: string; ask: number; key: string }
  | { kind: 'cells'; of: string; ask: number; from: number; count: number };

/** What the worker sends back. */
export type CalloutsTold =
  | { kind: 'lines'; of: string; turn: number; lines: CalloutLine[]; done: number; count: number }
  | { kind: 'done'; of: string; turn: number; judged: TableJudged }
  | { kind: 'refused'; of: string; turn: number; refusal: Refusal }
  | { kind: 'ordered'; ask: number; places: Uint32Array }
  | { kind: 'looked'; ask: number; look: CalloutLook | null }
  | { kind: 'cells'; ask: number; cells: TypedRow['cells'][] };
