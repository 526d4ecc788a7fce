/** The answer of command `bag`, field for field as the headless contract prints it; what stands beyond it says so. */

export type Minimised = 'mass' | 'count' | 'volume';

/** What a bag stands: nothing lost, any one piece lost, any one bag lost with all it holds. */
export type Tolerance = 'nothing' | 'piece' | 'bag';

/** So many of an item; on every outing where none is named. */
export interface ItemWish {
  id: string;
  quantity: number;
  outing?: string;
}

/** What whoever packs asks beyond the plan. */
export interface BagWishes {
  /** At least so many are packed. */
  keep: ItemWish[];
  /** None is packed. */
  forbid: { id: string; outing?: string }[];
  /** Gear beyond what is needed, on the outings that need some. */
  spares: ItemWish[];
}

export type CheckName =
  | 'drive'
  | 'opening'
  | 'reach'
  | 'clearance'
  | 'strength'
  | 'accuracy'
  | 'universal'
  | 'swing'
  | 'protrusion'
  | 'hold'
  | 'stock'
  | 'bag';

/** One check that a stack fails: what it has, what the step needs, each a text with its unit. */
export interface CheckFailure {
  check: CheckName;
  have: string;
  need: string;
}

/** Ids from the tool to the socket. */
export type StackIds = string[];

export interface ClosestFit {
  stack: StackIds;
  fails: CheckFailure[];
}

export interface Infeasibility {
  step?: string;
  outing?: string;
  reason: string;
  closest: ClosestFit[];
}

export interface Setting {
  value: number;
  unit: string;
}

export interface BagItem {
  id: string;
  quantity: number;
  bag: string;
  because: string[];
}

export interface BagStep {
  id: string;
  stack: StackIds;
  hold: StackIds | null;
  setting: Setting | null;
  /** Beyond the contract, where the plan gives a length to run: turns, and whole strokes in the free swing. */
  turns?: number;
  strokes?: number | null;
}

export interface BagOuting {
  id: string;
  massKg: number;
  items: BagItem[];
  steps: BagStep[];
}

export interface BagObjective {
  minimised: Minimised;
  value: number;
  unit: 'kg' | 'pieces' | 'L';
  /** No bag can do better than this. */
  bound: number;
  /** (value − bound) ÷ value; 0 is a proof. */
  gap: number;
}

export interface Unchecked {
  rule: string;
  steps?: string[];
  items?: string[];
}

export interface PlanProblem {
  rule: 'not-there' | 'left-behind' | 'over-time';
  outing: string;
  step?: string;
  id: string;
  quantity: number;
  place?: string;
}

export interface BagResult {
  status: 'optimal' | 'stopped' | 'infeasible';
  objective: BagObjective | null;
  outings: BagOuting[];
  /** Whether any one piece may be lost. */
  singleLoss: boolean;
  /** Beyond the contract: what the bag stands, and what was asked of it. */
  tolerance: Tolerance;
  wishes: BagWishes;
  unchecked: Unchecked[];
  problems: PlanProblem[];
  infeasible: Infeasibility[];
  /** Fields of the plan that no rule knows, by path: read past, and said. */
  ignoredFields: string[];
}
