import type { Unit } from '../units/index.ts';
import type { HeadForm, OpeningForm, Plan } from '../../../shared-types/plan.ts';

/** A plan in the engine's own units: what the rules compute with. Texts as typed stay in `source`. */
export interface ResolvedPlan {
  source: Plan;
  fasteners: Map<string, ResolvedFastener>;
  tools: Map<string, ResolvedTool>;
  extensions: Map<string, ResolvedExtension>;
  sockets: Map<string, ResolvedSocket>;
  gear: Map<string, ResolvedGear>;
  bags: Map<string, ResolvedBag>;
  /** Everything that can lie in a bag, by id: pieces of stacks and gear. */
  carried: Map<string, Carried>;
  outings: ResolvedOuting[];
  steps: ResolvedStep[];
  rangeShareMin: number;
  /** Fields no rule knows, by path. */
  ignoredFields: string[];
}

export interface Carried {
  id: string;
  name: string;
  kind: 'driver' | 'torqueTool' | 'extension' | 'socket' | 'gear';
  massKg: number;
  volumeL: number | null;
  sizeMm: number | null;
  tethers: number;
  onHand: number;
}

/** Hexalobular sizes are texts; every other size is a length. */
export type OpeningSize = { mm: number; typed?: string } | { text: string };

/** The units in which a step's own figures are written, so that answers about it speak the same. */
export interface ShownUnits {
  length: 'mm' | 'in';
  torque: Unit;
}

export interface ResolvedFastener {
  id: string;
  name: string;
  thread: string;
  headForm: HeadForm;
  acrossFlats: OpeningSize;
  threadRunMm: number | null;
  /** Null where the plan does not say. */
  captive: boolean | null;
  looseWashers: number;
  massKg: number | null;
  onHand: number;
}

export interface ResolvedTool extends Carried {
  kind: 'driver' | 'torqueTool';
  /** Side of the male square, one of the five standard squares, in mm. */
  driveMm: number;
  maxNm: number;
  leverMm: number | null;
  stepDeg: number | null;
  /** Torque tools only. */
  torque: ResolvedTorque | null;
  /** Which way a torque tool measures; null where that is not said. No rule of a stack asks for it. */
  direction: 'right' | 'left' | 'both' | null;
}

/** A torque on a tool's own scale, and the same in N·m. */
export interface ScaleTorque {
  value: number;
  unit: Unit;
  nm: number;
}

/** Exactly one of `increment` and `settings` is given. */
export interface ResolvedTorque {
  minNm: number;
  maxNm: number;
  increment: ScaleTorque | null;
  settings: ScaleTorque[] | null;
  accuracyOfReading: number;
  loosens: boolean;
}

export interface ResolvedExtension extends Carried {
  kind: 'extension';
  form: 'rigid' | 'universal' | 'adapter';
  driveInMm: number;
  driveOutMm: number;
  lengthMm: number;
  outsideDiameterMm: number;
  ratedNm: number;
}

export interface ResolvedSocket extends Carried {
  kind: 'socket';
  driveMm: number;
  openingForm: OpeningForm;
  size: OpeningSize;
  lengthMm: number;
  innerDepthMm: number | null;
  outsideDiameterMm: number;
  ratedNm: number;
}

export interface ResolvedGear extends Carried {
  kind: 'gear';
  consumed: boolean;
  /** Above 0 it is a pouch. */
  pouchPlaces: number;
  supplies: { fastener: string; quantity: number } | null;
}

export interface ResolvedBag {
  id: string;
  name: string;
  role: string | null;
  massKg: number;
  massMaxKg: number | null;
  volumeMaxL: number | null;
  itemsMax: number | null;
  sizeMaxMm: number | null;
  tetherPoints: number | null;
  /** Names of its pockets in their order; none where they have no names. */
  pockets: readonly string[];
}

export interface ResolvedOuting {
  id: string;
  name: string;
  roles: string[];
  bags: string[];
  minutesMax: number | null;
  /** Minutes of the way home. */
  turnBackMin: number | null;
  /** Pairs of roles that may take each other's steps; null: any two. */
  swaps: [string, string][] | null;
  carryMaxKg: ReadonlyMap<string, number>;
}

/** A triangular distribution. */
export interface ResolvedSpread {
  leastMin: number;
  likelyMin: number;
  mostMin: number;
}

/** Words as the plan has them; no `to`: it does not say where. */
export interface ResolvedFastenerMove {
  id: string;
  quantity: number;
  washers: number;
  from: string;
  to: string | null;
}

export interface ResolvedAccess {
  depthMm: number;
  clearDiameterMm: number | null;
  /** From the mouth inwards; from the last on to the head it is `clearDiameterMm`. */
  profile: { toMm: number; clearMm: number }[];
  swingDeg: number | null;
  handleRadiusMm: number | null;
  protrusionMm: number | null;
}

export interface BandNm {
  minNm: number;
  maxNm: number;
}

export interface ResolvedStep {
  id: string;
  name: string;
  outing: string;
  role: string;
  slot: string | null;
  action: 'tighten' | 'loosen' | 'use';
  fastener: ResolvedFastener | null;
  /** How many it turns; null where the plan does not say. */
  count: number | null;
  /** What every part must bear: rule 5. Null for `use`. */
  demandNm: number | null;
  callout: BandNm | null;
  running: BandNm | null;
  runningIncluded: boolean;
  /** Where the applied band must lie: the callout, moved by running torque where that is to be added. */
  aim: BandNm | null;
  access: ResolvedAccess;
  hold: { fastener: ResolvedFastener; access: ResolvedAccess } | null;
  gear: { id: string; quantity: number }[];
  moves: { id: string; quantity: number; from: string; to: string }[];
  minutes: number;
  contingency: boolean;
  spread: ResolvedSpread | null;
  fastenerMoves: ResolvedFastenerMove[];
  safeToLeave: boolean;
  /** Null: it keeps its place among the steps without. */
  after: string[] | null;
  shown: ShownUnits;
}
