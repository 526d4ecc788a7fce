import type { FrozenLine, FrozenThing, OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import { nothing, sameAmount } from './amount.ts';
import type { Amount } from './amount.ts';
import { beginPacking, packOn } from './fold.ts';
import { countedOf, missingOf } from './folded.ts';
import type { Entry, FoldedBag, FoldedLine, PackingFold, SecondCount } from './folded.ts';
import { extrasOf, isToRecount, linesOf, openOf, secondOf } from './standsOf.ts';

/** A line of a bag, as it stands. */
export interface PackedLine {
  line: FrozenLine;
  thing: FrozenThing;
  /** Counted in: pieces, and parts of all of them together. */
  counted: Amount;
  missing: Amount;
  /** Neither counted nor named missing. */
  open: Amount;
  /** `part`: some of it is counted, and some is open. */
  state: 'to-pack' | 'part' | 'packed' | 'missing';
  /** What put it there, oldest first. */
  entries: readonly Entry[];
  labels: readonly string[];
  /** The last count by another person. */
  second: SecondCount | null;
  /** A second count found something else, and the packer has not counted it since. */
  toRecount: boolean;
}

/** No more lines than are read at one go. */
const chunkMost = 10;

export interface Chunk {
  /** Pocket or layer; null where none is said. */
  pocket: string | null;
  /** Which part of its pocket's lines this is, and of how many. */
  part: number;
  parts: number;
  lines: readonly PackedLine[];
}

/** Pieces counted in, named missing and still open, of so many. */
export interface Totals {
  pieces: number;
  packed: number;
  missing: number;
  open: number;
  /** Pieces that are there without all of their parts. */
  partial: number;
}

export interface PackedBag {
  id: string;
  chunks: readonly Chunk[];
  lines: readonly PackedLine[];
  closed: FoldedBag['closed'];
  /** How far the count by another person has come. */
  second: 'none' | 'some' | 'differs' | 'agrees';
  totals: Totals;
}

export interface PackState {
  outing: string;
  bags: readonly PackedBag[];
  totals: Totals;
  /** Where the hand was last: the line of the last event, or its bag alone. */
  last: PackingFold['last'];
  /** The first line with something open from there on: in the bag at hand first. */
  next: { bag: string; item: string } | null;
  issued: OutingEvent | null;
  /** Events that count for nothing, each with the reason. */
  refused: readonly { no: number; reason: string }[];
  fold: PackingFold;
}

/**
 * Where packing an outing stands: what its events say, and nothing else.
 *
 * Pieces whose parts are not all there count as packed and are said apart (`partial`).
 *
 * @param revision - the frozen manifest
 * @param events - of the revision, in the order of their numbers
 * @param outing - code of the outing
 * @param before - names of those who counted, under an earlier revision, what was carried over
 * @returns bags with their lines in chunks of at most ten, totals, and where it goes on
 * @throws RefusedError where a line names a thing that the manifest does not hold
 */
export function packState(
  revision: Pick<Revision, 'content'>,
  events: readonly OutingEvent[],
  outing: string,
  before: readonly string[] = [],
): PackState {
  return stateOf(packOn(beginPacking(revision, outing, before), events));
}

/** The same of a fold. */
export function stateOf(fold: PackingFold): PackState {
  const bags = [...fold.bags.values()].map((bag) => packedBag(fold, bag));
  return {
    ...{ outing: fold.outing, bags, last: fold.last, issued: fold.issued, refused: [...fold.refused], fold },
    totals: summed(bags.map(({ totals }) => totals)),
    next: nextOf(bags, fold.last),
  };
}

function packedBag(fold: PackingFold, { id, closed }: FoldedBag): PackedBag {
  const lines = linesOf(fold, id).map(packedLine);
  return {
    ...{ id, closed, lines, chunks: chunksOf(lines) },
    second: secondState(lines, extrasOf(fold, id).length > 0),
    totals: summed(lines.map(totalsOf)),
  };
}

function packedLine(folded: FoldedLine): PackedLine {
  const [counted, missing] = [countedOf(folded), missingOf(folded)];
  const open = openOf(folded, counted, missing);
  return {
    ...{ line: folded.line, thing: folded.thing, counted, missing, open, entries: folded.entries },
    state: stateOfLine(counted, missing, open),
    labels: folded.entries.flatMap(({ labels }) => labels),
    second: secondOf(folded),
    toRecount: isToRecount(folded),
  };
}

function stateOfLine(counted: Amount, missing: Amount, open: Amount): PackedLine['state'] {
  if (!sameAmount(open, nothing)) return sameAmount(counted, nothing) ? 'to-pack' : 'part';
  return sameAmount(missing, nothing) ? 'packed' : 'missing';
}

function totalsOf({ line, thing, counted, missing, open }: PackedLine): Totals {
  return {
    pieces: line.quantity,
    packed: counted.pieces,
    missing: missing.pieces,
    open: open.pieces,
    partial: Math.min(counted.pieces, counted.pieces * thing.parts - counted.parts),
  };
}

function summed(all: readonly Totals[]): Totals {
  const sum = (each: (one: Totals) => number): number => all.reduce((total, one) => total + each(one), 0);
  return {
    pieces: sum(({ pieces }) => pieces),
    packed: sum(({ packed }) => packed),
    missing: sum(({ missing }) => missing),
    open: sum(({ open }) => open),
    partial: sum(({ partial }) => partial),
  };
}

/** Pocket by pocket, in the order in which the manifest comes to them; a long one in parts of about the same length. */
function chunksOf(lines: readonly PackedLine[]): Chunk[] {
  const pockets = new Map<string | null, PackedLine[]>();
  for (const one of lines) {
    const pocket = one.line.pocket ?? null;
    pockets.set(pocket, [...(pockets.get(pocket) ?? []), one]);
  }
  return [...pockets].flatMap(([pocket, own]) => {
    const parts = Math.ceil(own.length / chunkMost);
    const each = Math.ceil(own.length / parts);
    return Array.from({ length: parts }, (_, index) => ({
      ...{ pocket, parts, part: index + 1 },
      lines: own.slice(index * each, (index + 1) * each),
    }));
  });
}

function secondState(lines: readonly PackedLine[], hasExtras: boolean): PackedBag['second'] {
  const counted = lines.filter(({ second }) => second !== null);
  if (counted.length === 0 && !hasExtras) return 'none';
  if (counted.length < lines.length) return 'some';
  const differs = lines.some(
    ({ second, counted: mine, toRecount }) => toRecount || (second !== null && !sameAmount(second.amount, mine)),
  );
  return differs || hasExtras ? 'differs' : 'agrees';
}

/** From the line of the last event on, round its bag; then the other bags in order. */
function nextOf(bags: readonly PackedBag[], last: PackingFold['last']): PackState['next'] {
  const at = Math.max(
    0,
    bags.findIndex(({ id }) => id === last?.bag),
  );
  for (const bag of [...bags.slice(at), ...bags.slice(0, at)]) {
    if (bag.closed !== null) continue;
    const from = bag.id === last?.bag ? bag.lines.findIndex(({ line }) => line.item === last.item) : 0;
    const inOrder = [...bag.lines.slice(Math.max(0, from)), ...bag.lines.slice(0, Math.max(0, from))];
    const open = inOrder.find((one) => one.open.parts > 0);
    if (open !== undefined) return { bag: bag.id, item: open.line.item };
  }
  return null;
}
