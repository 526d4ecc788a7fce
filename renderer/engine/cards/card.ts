import type { ClosestFit, StackIds } from '../../../shared-types/bag.ts';
import type { SignalWord } from '../../../shared-types/plan.ts';
import type { PatternPoint, Turn } from '../pattern/index.ts';

/** One line of a card: the state to be reached, where, on how many pieces, and the value it is reached at. */
export interface CardLine {
  kind: 'take' | 'hold' | 'gear' | 'run' | 'pass' | 'final' | 'read' | 'loosen' | 'do' | 'stop' | 'move' | 'back';
  /** The state to be reached, in words. */
  reach: string;
  where: string;
  count: string;
  value: CardValue;
}

/** A value to be set or kept to; or words where there is none to set. */
export type CardValue =
  | { kind: 'set'; number: string; unit: string; beside: string }
  | { kind: 'limit'; text: string }
  | { kind: 'words'; text: string };

export interface CardNotice {
  /** `Not used`: what is kept and cannot be followed. */
  word: SignalWord | 'Not used' | 'Watch-out';
  text: string;
}

/** Why a step has no setting: nothing to turn; out of reach; no bag was found for its outing; its tool measures the other way. */
export type CardState = 'planned' | 'by-hand' | 'not-reached' | 'no-bag' | 'other-way';

/** Which way the fastener turns as the worker sees it. */
export interface CardTurn {
  turn: Turn;
  /** "left-hand thread", "seen from behind". */
  because: string[];
}

/** A column of boxes in which values are written. */
export interface BoxColumn {
  step: number;
  /** "Running", "Pass 1", "Final". */
  name: string;
  unit: string;
}

/** Boxes to write measured values in, a row for each position. */
export interface CardBoxes {
  /** Names of the positions in the order they are turned in. */
  order: string[];
  /** "star, proposed", "as the interface says"; null where no order is known. */
  orderFrom: string | null;
  orderFault: string | null;
  /** Places as the worker sees them; null where no pattern says where they lie. */
  points: PatternPoint[] | null;
  mirrored: boolean;
  columns: BoxColumn[];
}

/** One step as its card says it. */
export interface CardStep {
  id: string;
  number: number;
  name: string;
  /** "only if step 9 is stuck"; null in the course of the outing. */
  onlyIf: string | null;
  state: CardState;
  minutes: number;
  /** Gravest first; watch-outs after them. */
  notices: CardNotice[];
  lines: CardLine[];
  stack: StackIds;
  hold: StackIds | null;
  turn: CardTurn | null;
  /** What it acts on and how that is reached, as one text: two steps of one text have one drawing. */
  site: string;
  boxes: CardBoxes | null;
  closest: ClosestFit[];
  /** Where figures come from, what they rest on. */
  notes: string[];
}

/** Some lines of a step: all of them, except where a step has more than a card holds. */
export interface CardPart {
  step: CardStep;
  lines: CardLine[];
  /** Its first lines stand on an earlier card. */
  continued: boolean;
  /** Its last line stands on this card. */
  ends: boolean;
}

/** One page. */
export interface Card {
  role: string;
  parts: CardPart[];
  lineCount: number;
  /** Of the steps that begin on this card. */
  minutes: number;
  boxes: CardBoxes | null;
}
