/**
 * Why a bag is as it is: what becomes of each outing without each of its items, what tolerance costs, which limits
 * bind, and which steps of an impossible outing do not go together. Field `reasons` of the answer of command `bag`.
 * Figures are in the objective's own unit unless a field says otherwise.
 */
import type { BagObjective, BagStep, ClosestFit, Infeasibility, Tolerance } from './bag.ts';

/** An amount with what is proven of it: nothing below `bound` can be; equal to `value` it is a proof. */
export interface Proven {
  value: number;
  bound: number;
}

/** How a question to the planner came out; `open`: out of time before anything was found or proven. */
export type Outcome = 'proven' | 'stopped' | 'infeasible' | 'open';

/** Pieces of one item by their number. */
export interface Pieces {
  id: string;
  quantity: number;
}

/** What an outing's answer runs against; quantities as the plan's limits have them. */
export type Limit =
  | { kind: 'massMax' | 'volumeMax' | 'itemsMax' | 'sizeMax' | 'tetherPoints'; bag: string }
  | { kind: 'stock'; id: string }
  | { kind: 'slot'; slot: string }
  | { kind: 'keep' | 'forbid' | 'spares'; id: string };

/** A limit with what is used of what it allows, in `unit`; nulls where it is no matter of an amount. */
export interface MeasuredLimit {
  outing: string;
  limit: Limit;
  allowed: number | null;
  used: number | null;
  unit: 'kg' | 'L' | 'mm' | 'pieces' | 'tether points' | null;
}

/** What the planner gives where an outing goes without some of what it packs. */
export interface WithoutItem {
  outing: string;
  id: string;
  packed: number;
  /** Pieces that may still be packed: 0, or one fewer than are. */
  left: number;
  unit: BagObjective['unit'];
  /** Whether a wish that keeps the item was left aside for the question. */
  againstWish: boolean;
  outcome: Outcome;
  /** What the outing then costs more (below 0: less); null where it is not possible or nothing was found. */
  cost: Proven | null;
  /** Pieces that come in for it, and what goes out with it, in the order of the catalog. */
  comesIn: Pieces[];
  goesOut: Pieces[];
  /** Steps whose stack or hold is then another. */
  changed: Pick<BagStep, 'id' | 'stack' | 'hold'>[];
  /** Steps that then fail, each with its closest fits or the gear it lacks. */
  fails: Infeasibility[];
  /** Steps that are then possible each by itself, and not together. */
  conflicts: StepConflict[];
}

/** What one outing, or all together, costs with one tolerance. */
export interface TolerancePoint {
  tolerance: Tolerance;
  outcome: Outcome;
  unit: BagObjective['unit'];
  total: Proven | null;
  outings: { id: string; outcome: Outcome; total: Proven | null }[];
  /** Why it is not possible. */
  stoppedBy: Infeasibility[];
  conflicts: StepConflict[];
  losses: LossReason[];
}

/** A limit held against the answer: what the outing would cost without it. */
export interface LimitReason extends MeasuredLimit {
  /** Null where time ran out before it was known. */
  binds: boolean | null;
  objectiveUnit: BagObjective['unit'];
  /** What all outings would cost together without this limit; null where nothing is known. */
  relaxed: Proven | null;
}

/** Limits of which none binds alone, and which together do: the answer changes only without all of them. */
export interface LimitsTogether {
  outing: string;
  limits: MeasuredLimit[];
  objectiveUnit: BagObjective['unit'];
  relaxed: Proven;
}

/** Steps of which every part is possible, and which together are not. */
export interface StepConflict {
  outing: string;
  /** With what tolerance. */
  tolerance: Tolerance;
  steps: string[];
  /** Limits each of which alone stands in the way: with it eased to `needs` the steps go together. */
  eased: EasedLimit[];
  /** Where no limit alone stands in the way: a smallest set of those that do together. */
  easedTogether: MeasuredLimit[];
  reason: string;
}

export interface EasedLimit extends MeasuredLimit {
  /** The least that does, in `unit`; null where the limit is no matter of an amount. */
  needs: number | null;
  /** Whether nothing below `needs` does. */
  least: boolean;
}

/** A loss that a step does not survive. */
export interface LossReason {
  outing: string;
  step: string;
  lost: { piece: string } | { bag: string };
  /** What comes nearest to a second stack. */
  closest: ClosestFit[];
  reason: string;
}

export interface BagReasons {
  without: WithoutItem[];
  tolerance: TolerancePoint[];
  limits: LimitReason[];
  limitsTogether: LimitsTogether[];
  conflicts: StepConflict[];
  losses: LossReason[];
}

/** One finding, as it comes. */
export type ReasonFound =
  | { kind: 'without'; found: WithoutItem }
  | { kind: 'tolerance'; found: TolerancePoint }
  | { kind: 'limit'; found: LimitReason }
  | { kind: 'limitsTogether'; found: LimitsTogether }
  | { kind: 'conflict'; found: StepConflict }
  | { kind: 'loss'; found: LossReason };

/** What may be asked for; `faults` are the conflicts and losses of a plan that cannot be done. */
export type ReasonPart = 'faults' | 'without' | 'tolerance' | 'limits';
