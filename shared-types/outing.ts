/**
 * How an outing runs: where every piece is after every step, the clock, the chance of finishing, and what is proposed.
 * All of it is beyond the headless contract: command `bag` adds it as `course` and judges no plan by it.
 */

/** Pieces of stacks, carry gear, fasteners of the site, loose washers under them (under their fastener's id). */
export type PieceKind = 'tool' | 'gear' | 'fastener' | 'washer';

/** Where a piece is. Exactly one of these at every moment; `nowhere` is what must not be. */
export type Whereabouts =
  /** At home: not yet taken out, or back. */
  | { at: 'store' }
  /** In a bag of the outing, in a pouch where one is named. No bag where none was planned. */
  | { at: 'bag'; bag: string | null; pouch?: string }
  /** In a role's hands, or joined to what is in them. */
  | { at: 'hand'; role: string }
  | { at: 'place'; place: string }
  /** In its hole at the work site: fixed, or loosened and not taken out. */
  | { at: 'site'; loosened: boolean }
  /** Consumed gear after its step. */
  | { at: 'used' }
  | { at: 'nowhere' };

/** What keeps a piece from being lost. `set-down`: at a place that the plan names. `loose` is a problem. */
export type Secured = 'home' | 'bagged' | 'held' | 'tethered' | 'set-down' | 'fixed' | 'used' | 'loose';

/** `packed`: the outing's bags are filled; `begun`, `done`: a step's; `home`: the outing is back. */
export type Moment = 'packed' | 'begun' | 'done' | 'home';

/** A point of the whole course. No step at `packed` and `home`. */
export interface CoursePoint {
  outing: string;
  step: string | null;
  moment: Moment;
}

export interface LedgerRow {
  id: string;
  kind: PieceKind;
  quantity: number;
  where: Whereabouts;
  secured: Secured;
}

export interface LedgerTransfer {
  id: string;
  kind: PieceKind;
  quantity: number;
  from: Whereabouts;
  to: Whereabouts;
}

/** What moved at one point, and where everything is after it. */
export interface LedgerEntry extends CoursePoint {
  transfers: LedgerTransfer[];
  rows: LedgerRow[];
}

/** The most a role needs at once over an outing, and the first step at which it needs it. */
export interface SecuringNeed {
  outing: string;
  role: string;
  /** Tether points of everything of it that is out of its bags. */
  tethers: { needed: number; available: number | null; step: string | null };
  /** Loose fasteners and washers bagged at once; `available`: places of the pouches packed for it. */
  pouchPlaces: { needed: number; available: number; step: string | null };
}

export type CourseRule =
  /** A step takes from a place what is not there, or turns a fastener that is not in its hole. */
  | 'not-there'
  /** Something lies at a place that is not final when all is done. */
  | 'left-behind'
  /** Two steps of one slot use one piece. */
  | 'used-twice'
  /** A step uses a piece that is in none of its role's bags. */
  | 'not-packed'
  /** A role carries more than its limit. */
  | 'over-carry'
  /** Neither held, tethered, bagged, fixed nor set down at a named place. */
  | 'loose'
  /** Out of its bag without the tether points it needs. */
  | 'no-tether-point'
  /** More loose pieces bagged than the pouches packed for the role take. */
  | 'no-pouch-place'
  /** More in a role's hands than two hold. */
  | 'hands-full'
  /** A step turns one number of fasteners and moves another. */
  | 'count-differs'
  /** A step stands before one that it must come after. */
  | 'out-of-order'
  /** Loosened, and when all is done not tightened again, though others of its kind are. */
  | 'left-loosened'
  /** Some are tightened again, and when all is done fewer are in their holes than there were. */
  | 'site-short'
  /** The torque tool chosen for a step measures the other way than its thread tightens. */
  | 'other-way';

/** What would mend a problem. `says` is a sentence for people. */
export interface Mend {
  how:
    | 'bring'
    | 'fetch'
    | 'reorder'
    | 'apart'
    | 'piece'
    | 'lighten'
    | 'tether-point'
    | 'pouch'
    | 'place'
    | 'tighten'
    | 'count'
    | 'tool';
  outing?: string;
  step?: string;
  says: string;
}

export interface CourseProblem {
  rule: CourseRule;
  outing: string;
  /** Where it arises; null for an outing as a whole. */
  step: string | null;
  /** The point at which it ends; absent where it is of one moment, null where it never ends. */
  until?: CoursePoint | null;
  id: string;
  kind: PieceKind | 'role' | 'step';
  /** Pieces; kilograms over for `over-carry`. */
  quantity: number;
  place?: string;
  role?: string;
  mends: Mend[];
}

/** One physical piece through all outings. `piece` counts from 1 within an item. */
export interface PieceWay {
  id: string;
  kind: PieceKind;
  piece: number;
  /** In order, each beginning where the one before ends; the last has no end. */
  intervals: { where: Whereabouts; from: CoursePoint; to: CoursePoint | null }[];
}

/** The loose-piece ledger over all outings. */
export interface Ledger {
  /** Before anything is done: the store, and what the site holds. */
  opening: LedgerRow[];
  entries: LedgerEntry[];
  needs: SecuringNeed[];
  problems: CourseProblem[];
  /** What had to be taken as so, because the plan does not say. */
  assumptions: string[];
}

export interface ClockSpan {
  step: string;
  role: string;
  startMin: number;
  endMin: number;
}

export interface OutingClock {
  /** The outing's own course, by beginning; steps of one slot at once, each role's one after another. */
  spans: ClockSpan[];
  /** Contingency steps: they have no place on the clock. */
  aside: string[];
  endMin: number;
  minutesMax: number | null;
  /** Minutes over `minutesMax`; 0 where it fits or has no limit. */
  overMin: number;
  turnBack: TurnBack | null;
  safe: SafeStep[];
}

/** Only where the outing gives both its limit and its way home. */
export interface TurnBack {
  /** Minutes of the way home. */
  minutes: number;
  /** The work must stand still at this minute at the latest. */
  latestMin: number;
  /** The last step after which the way home still fits; null where it does after none. */
  step: string | null;
  /** The last step safe to leave among those; null where there is none, or the plan names no safe steps. */
  safeStep: string | null;
  /** Whether all of it fits with the way home. */
  allFits: boolean;
}

/** The work may be left after this step. */
export interface SafeStep {
  step: string;
  endMin: number;
  /** Minutes left before the latest turn; null without a limit or a way home. Negative: too late to turn here. */
  slackMin: number | null;
  /** Minutes from the previous safe step (or the beginning) to this one, in which the work cannot be left. */
  stretchMin: number;
}

export interface Chance {
  probability: number;
  interval: { low: number; high: number; confidence: number; method: string };
}

/** From step times drawn from the plan's stated distributions. */
export interface FinishingChance {
  /** All steps done within the outing's minutes. */
  finish: Chance;
  /** And home again within them; null where the outing gives no way home. */
  home: Chance | null;
  minutes: { mean: number; p10: number; p50: number; p90: number };
  seed: number;
  samples: number;
  assumptions: string[];
}

/** Figures of an order of steps. */
export interface OrderFigures {
  /** How often a role lays one stack away for another. */
  toolChanges: number;
  /** Most loosened fasteners, washers and moved units that are not fixed at once. */
  loosePeak: number;
  endMin: number;
}

/** An order of an outing's steps, proposed. */
export interface OrderProposal {
  aim: 'tool-changes' | 'loose-pieces';
  order: string[];
  before: OrderFigures;
  after: OrderFigures;
  /** `exact`: no order that the plan leaves room for is better in its aim; `search`: none better was found. */
  how: 'exact' | 'search';
}

/** Steps given to another role, proposed. */
export interface SwapProposal {
  /** Each step with its role now and then. */
  changes: { step: string; from: string; to: string }[];
  minutes: { before: number; after: number };
  /** Minutes of work of each role. */
  loads: { role: string; before: number; after: number }[];
  /** Steps that would be at once with others and share pieces that are there once. */
  clashes: CourseProblem[];
  /** Whether the bag as planned still serves; where not, why. */
  bag: { serves: boolean; reasons: string[] } | null;
}

export interface OutingCourse {
  outing: string;
  clock: OutingClock;
  needs: SecuringNeed[];
  problems: CourseProblem[];
  /** Null where no step of the outing has a spread, or it has no limit. */
  chance: FinishingChance | null;
  orders: OrderProposal[];
  swaps: SwapProposal[];
}

/** What command `bag` adds as `course`. */
export interface CourseResult {
  outings: OutingCourse[];
  /** The ways of pieces that lie at a place, in somebody's hands between steps, or nowhere; all others stay bagged. */
  ways: PieceWay[];
  assumptions: string[];
  /** What a second count of the ledger, from its lines alone, finds wrong with it: nothing, unless the program is. */
  recount: string[];
}
