/** An outing's packing as its events have it: what is counted in, named missing, closed, counted again. */
import type { DeedOf, Doer, FrozenLine, FrozenThing, OutingEvent } from '../../../shared-types/records/revision.ts';
import { readTag } from '../tag/tag.ts';
import { added, nothing } from './amount.ts';
import type { Amount } from './amount.ts';

/** What one event put into a line, as long as it stands. */
export interface Entry extends Amount {
  no: number;
  at: string;
  by: Doer;
  kind: 'counted' | 'missing' | 'carried-over';
  /** Of single pieces among them. */
  labels: readonly string[];
  reason?: string;
}

/** What a second person counted of a line, and what was counted in by then. */
export interface SecondCount {
  no: number;
  by: Doer;
  way: DeedOf<'second-count'>['way'];
  amount: Amount;
  packed: Amount;
}

/** A line with what was done to it. */
export interface FoldedLine {
  line: FrozenLine;
  thing: FrozenThing;
  entries: Entry[];
  seconds: SecondCount[];
  /** The last event that counted on it, a taking back included. */
  touched: number;
}

export interface FoldedBag {
  id: string;
  closed: { no: number; at: string; by: Doer; reason?: string; second?: Doer } | null;
  /** What a second person found in it that is no line of it, oldest first. */
  extras: { item: string; no: number; by: Doer; amount: Amount }[];
}

/** Every event that stands and could be taken back, with the line it was about. */
interface Standing {
  event: OutingEvent;
  lines: readonly FoldedLine[];
}

export interface PackingFold {
  outing: string;
  lines: Map<string, FoldedLine>;
  bags: Map<string, FoldedBag>;
  standing: Map<number, Standing>;
  taken: Set<number>;
  labels: Set<string>;
  issued: OutingEvent | null;
  /** Something of it has come back, or was left or used. */
  returning: number;
  /** The bag, and where it was about one the line, of the last event. */
  last: { no: number; bag: string; item: string | null } | null;
  lastNo: number;
  /** Events that do not fit what was there: they count for nothing. */
  refused: { no: number; reason: string }[];
  /** Who counted under an earlier revision what was carried over. */
  before: readonly string[];
}

/** What names a line within an outing. */
export const lineKey = (bag: string, item: string): string => `${bag}\n${item}`;

/**
 * Whether a label is of one piece, and so counts once. One of our labels with piece 000 names the thing, and its pieces are
 * counted by number; of a code that is no label of ours it is not known, and it counts once.
 *
 * @param label - as it was read
 * @returns false where the same label may be read for several pieces
 */
export function namesOnePiece(label: string): boolean {
  const reading = readTag(label);
  return 'refused' in reading || reading.tag.piece > 0;
}

/** What is counted into a line by now. */
export function countedOf({ entries }: FoldedLine): Amount {
  return sum(entries.filter(({ kind }) => kind !== 'missing'));
}

/** What of a line is named missing. */
export function missingOf({ entries }: FoldedLine): Amount {
  return sum(entries.filter(({ kind }) => kind === 'missing'));
}

function sum(entries: readonly Entry[]): Amount {
  return entries.reduce<Amount>(added, nothing);
}
