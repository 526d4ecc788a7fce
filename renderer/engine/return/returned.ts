import type { Doer, FrozenThing } from '../../../shared-types/records/revision.ts';
import type { Amount } from './amount.ts';

/** The place where everything comes home to; any other is a place of the plan or in words. */
export const shop = 'shop';

/** Some of a line at a place: counted in there, or left there on purpose. */
export interface AtPlace extends Amount {
  how: 'back' | 'left';
  place: string;
  /** Numbers of the events that say so, oldest first. */
  events: number[];
}

/** What an event said of a line, the last one first asked: where a missing piece was seen. */
export interface Sighting {
  place: string;
  at: string;
  by: Doer;
  event: number;
}

/** A line of an outing that went out, and what has become of it. */
export interface ReturnLine {
  bag: string;
  item: string;
  thing: FrozenThing;
  /** Where a bag's pockets have names: in which it went, and what of it in others. */
  pocket?: string;
  apart?: readonly { pocket: string; pieces: number }[];
  /** What went out. */
  out: Amount;
  /** Labels of single pieces that went out, and those of them that are counted in, with where. */
  labels: string[];
  labelsBack: Map<string, string>;
  /** What came back or stays out there, by place, in the order in which it was said. */
  at: AtPlace[];
  used: Amount;
  /** Neither back nor left nor used. */
  open: Amount;
  lastSeen: Sighting;
}

export interface Issue {
  no: number;
  at: string;
  by: Doer;
}

export interface ReturnState {
  /** Null where nothing has gone out. */
  issued: Issue | null;
  lines: ReturnLine[];
  /** The line of the last event, where the work goes on. */
  lastLine: { bag: string; item: string } | null;
  closed: (Issue & { reason: string | null; second: Doer | null }) | null;
  /** Events that were kept and cannot hold, each with why: they are not counted. */
  faults: { no: number; reason: string }[];
}

/** A line's name in all revisions. */
export function lineKey({ bag, item }: { bag: string; item: string }): string {
  return JSON.stringify([bag, item]);
}
