/** A callout as it is judged: what of it is computed, and the answer of the headless command `callouts`. */
import type { FailsFirst } from './engagement.ts';
import type { Judged, JudgedRow } from './judged.ts';
import type { Spread } from './joint.ts';

/** Columns that are read, as the headless contract names them; `passes` and `angle` stand beyond it. */
export const calloutColumns = [
  'id',
  'thread',
  'torqueMin',
  'torqueMax',
  'torque',
  'tolerance',
  'torqueAlt',
  'strength',
  'head',
  'wrench',
  'locking',
  'runningMin',
  'runningMax',
  'breakawayMin',
  'runningIncluded',
  'lubrication',
  'nutFactor',
  'frictionThread',
  'frictionBearing',
  'bearingDiameter',
  'scatter',
  'engagement',
  'internalUltimate',
  'preloadMin',
  'preloadMax',
  'toolAccuracy',
  'passes',
  'angle',
] as const;

export type CalloutColumn = (typeof calloutColumns)[number];

export interface CalloutBand {
  min: number;
  max: number;
}

/** A published band for a thread. */
export interface PublishedBand {
  document: string;
  table: string;
  condition: string;
  minNm: number | null;
  maxNm: number | null;
  /** The band with the tolerance that the document states for its values; absent where it states none. */
  tolerance?: PublishedTolerance;
  matched: 'thread' | 'diameter';
}

/** What a document lets its printed torques vary by. */
export interface PublishedTolerance {
  percent: number;
  minNm: number;
  maxNm: number;
}

/** What one document says of a locking feature on a thread. */
export interface PublishedLocking {
  document: string;
  runningMaxNm: number | null;
  breakawayMinNm: number | null;
  reusedMinNm: number | null;
}

/** What follows from a callout; a field is absent where the callout does not say enough, or no published value is held. */
export interface CalloutComputed {
  thread: string;
  calloutNm: CalloutBand;
  /** The band in the second unit, and what the callout is in it exactly. */
  alternative?: { min: number; max: number; unit: string; exact: CalloutBand };
  runningNm?: CalloutBand;
  /** Where the torque on the wrench must lie. */
  aimNm?: CalloutBand;
  /** What is left for seating. */
  seatingNm?: CalloutBand;
  /** The same two where the callout does not say whether the running torque is in it: had it to be added. */
  ifRunningAdded?: { aimNm: CalloutBand; seatingNm: CalloutBand };
  strength?: { name: string; proofMPa: number | null; yieldMPa: number | null; ultimateMPa: number | null };
  preloadN?: Spread;
  /** At the greatest preload; equivalent to tension and torsion together. */
  greatestStressMPa?: { tension: number; equivalent?: number };
  proofShare?: { nominal: number; max: number };
  yieldShare?: { nominal: number; max: number };
  head?: { form: string; nominal: string; nominalMm: number; document: string };
  /** What the document named says; all that have the size stand in the answer's `published`. */
  locking?: PublishedLocking;
  engagement?: {
    requiredEngagementMm: number | null;
    failsFirst: FailsFirst | null;
    loadsN: { bolt: number | null; externalThread: number | null; internalThread: number | null };
  };
  /** The greatest permissible deviation of a tool some setting of which keeps to the aim, as a share of the reading. */
  toolAccuracyMax?: number;
  passesNm?: CalloutBand[];
  /** The turn after the snug torque, and how far the fastener goes in by it. */
  turn?: { angleDeg: CalloutBand; advanceMm: CalloutBand };
  assumptions: readonly string[];
  /** Which bands it was held against: a key of the answer's `published.bands`, and the places of those it lies in. */
  bands: { of: string; agreeing: number[] };
}

/** One callout judged; `otherColumns` holds what no rule reads, as it stands in the file. */
export interface CalloutRow extends JudgedRow<CalloutComputed> {
  row: number;
  otherColumns?: Record<string, string>;
}

export interface CalloutsResult extends Judged<CalloutRow> {
  /** What the documents print, side by side, once for each thread: documents differ, and which one rules is a person's choice. */
  published: { bands: Record<string, PublishedBand[]>; locking: Record<string, PublishedLocking[]> };
  /** How the file was read. */
  read: { encoding: string | null; delimiter: string; rows: number; notes: string[] };
  caution: string;
}
