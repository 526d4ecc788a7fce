import type { Refusal } from '../../shared-types/errors.ts';
import type {
  KeptRow,
  Mapping,
  ReadyRow,
  RunCounts,
  TargetContext,
  TargetName,
  UnitsSeen,
} from '../engine/tableImport/index.ts';

/** Where a table comes from. */
export type TableOrigin = { kind: 'file'; name: string; bytes: Uint8Array } | { kind: 'paste'; text: string };

/** Which table of it is meant. */
export interface TableChoice {
  /** Of a workbook: which sheet, from 0. */
  sheet: number;
  /** Of a sheet: the row its header stands in; null for the first that is not blank. */
  headerRow: number | null;
  /** Of pasted rows: whether the first names the columns. */
  hasHeader: boolean;
}

/** A table as the page shows it before anything is read of it. */
export interface TableShown {
  /** Of a workbook; empty for anything else. */
  sheets: { name: string; state: 'visible' | 'hidden' }[];
  names: string[];
  headerRow: number;
  rows: number;
  /** The first rows, as texts. */
  first: { row: number; cells: string[] }[];
  /** By the place of a column that has quantities. */
  units: [at: number, seen: UnitsSeen][];
  guess: { mapping: Mapping; doubts: [at: number, why: string][] };
  read: { encoding: string | null; delimiter: string | null; sheet: string | null };
  notes: string[];
}

export interface RunAsked {
  mapping: Mapping;
  context: TargetContext;
  kept: readonly KeptRow[];
}

/** So many kept rows are handed over at a time. */
export const keptPiece = 500;

/** What the page sends the worker. */
export type TableImportAsked =
  | { kind: 'open'; target: TargetName; origin: TableOrigin; choice: TableChoice }
  /** Kept rows for the next run, in pieces; the first of a run says so. */
  | { kind: 'kept'; rows: readonly KeptRow[]; isFirst: boolean }
  | { kind: 'run'; asked: Omit<RunAsked, 'kept'> };

/** What the worker sends back. Of a workbook that opens and one sheet of which does not, the sheets come all the same. */
export type TableImportTold =
  | { kind: 'shown'; shown: TableShown }
  | { kind: 'refused'; refusal: Refusal; sheets: TableShown['sheets'] }
  | { kind: 'progress'; done: number; count: number; counts: RunCounts }
  | { kind: 'found'; ready: ReadyRow[]; refusals: Refusal[] }
  | { kind: 'done'; columns: string[]; counts: RunCounts };
