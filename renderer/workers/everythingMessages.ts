import type { Refusal } from '../../shared-types/errors.ts';
import type { AnyRecord, TableName } from '../../shared-types/records/index.ts';
import type { Differing, Into } from '../engine/everything/intoHere.ts';
import type { Contrary, Looked } from '../engine/everything/lookedInto.ts';
import type { Everything } from '../engine/everything/readEverything.ts';

/** What is said of a file that was read; its records stay in the worker. */
export type EverythingRead = Omit<Everything, 'tables'>;

/** So many records are handed over at a time, here and there. */
export const recordsPiece = 500;
/** So many characters of a file are. */
export const textPiece = 4 * 1024 * 1024;
/** So many faults are handed over; how many more there are is said. */
export const faultsMost = 1000;

/** What the page sends the worker. */
export type EverythingAsked =
  /** A piece of the file; of the last its reading begins. */
  | { kind: 'text'; name: string; piece: string; isLast: boolean }
  /** Records that are kept, in pieces. */
  | { kind: 'here'; table: TableName; records: AnyRecord[] }
  | { kind: 'look'; differing: Differing }
  /** What would be written, as it was looked at last. */
  | { kind: 'puts' };

/** What the worker sends back. */
export type EverythingTold =
  | { kind: 'doing'; doing: string }
  | { kind: 'read'; read: EverythingRead }
  | { kind: 'looked'; looked: Looked }
  | { kind: 'contrary'; contrary: Contrary; more: number }
  | { kind: 'puts'; puts: Into['puts']; isLast: boolean }
  | { kind: 'refused'; refusal: Refusal };
